/** Imported first: zod must not compile checks with `new Function`, which the page's content policy forbids. */
import * as z from 'zod/mini';

z.config({ jitless: true });
