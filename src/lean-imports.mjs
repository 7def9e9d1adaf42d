/**
 * What makes the start short. Given to node by --import, before anything else is looked for.
 */

import { enableCompileCache, flushCompileCache, getCompileCacheDir, registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';

/** Time enough for all that a start needs to be loaded. */
const STARTED_MS = 10_000;

// What a start before this one compiled and stripped of its types. Where nothing can be kept, as in an image, nothing is.
enableCompileCache(fileURLToPath(new URL('../node_modules/.cache/compiled', import.meta.url)));
// Threads go by the environment.
const kept = getCompileCacheDir();
if (kept !== undefined) process.env.NODE_COMPILE_CACHE ??= kept;
// Else it is kept at the end, and a machine that is switched off has none.
setTimeout(() => flushCompileCache(), STARTED_MS).unref();

/**
 * Loads drizzle-orm in its CommonJS form: Node reads the package.json of a package anew for every module of an ES form, and the one of
 * drizzle-orm is so long that this took a fifth of the start.
 */
registerHooks({
  resolve(specifier, context, next) {
    const isOrm = specifier === 'drizzle-orm' || specifier.startsWith('drizzle-orm/');
    return next(specifier, isOrm ? { ...context, conditions: ['node', 'require'] } : context);
  },
});
