/**
 * Imported first: zod must not compile checks with `new Function`, which the page's content policy forbids. Said where zod
 * looks for its settings when it is loaded, so that a board that parses nothing need not load zod to say it.
 */
declare global {
  // A `var`, as zod's own: nothing else makes a property of `globalThis`.
  var __zod_globalConfig: { jitless?: boolean };
}

globalThis.__zod_globalConfig = { ...globalThis.__zod_globalConfig, jitless: true };

export {};
