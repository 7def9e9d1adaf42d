/**
 * Loads drizzle-orm in its CommonJS form: Node reads the package.json of a package anew for every module of an ES form, and the one of
 * drizzle-orm is so long that this took a fifth of the start. Given to node by --import, before anything else is looked for.
 */

import { registerHooks } from 'node:module';

registerHooks({
  resolve(specifier, context, next) {
    const isOrm = specifier === 'drizzle-orm' || specifier.startsWith('drizzle-orm/');
    return next(specifier, isOrm ? { ...context, conditions: ['node', 'require'] } : context);
  },
});
