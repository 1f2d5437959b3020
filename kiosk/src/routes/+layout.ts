/** The board is drawn in the browser alone: the hub serves these files and the data. */
export const ssr = false;
export const prerender = false;
