/** What TypeScript may know of `start.mjs`. */
export const NODE_FLAGS: string[];
export const NODE_ENV: Record<string, string>;
