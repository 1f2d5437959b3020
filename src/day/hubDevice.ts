/** The device of the hub's own ops; no tablet can have it. */
export const HUB_DEVICE = 'hub';
