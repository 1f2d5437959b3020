/** Imported first: zod must not compile checks with `new Function`, which the page's content policy forbids. */
// By its own name: what is called on `z` counts as free of effects in the build.
import { config } from 'zod/mini';

config({ jitless: true });
