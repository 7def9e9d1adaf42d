/** Whether an id names a thing or one of its copies, such as grain.2 of grain. */
export function names(id: string, thing: string): boolean {
  return id === thing || (id.startsWith(`${thing}.`) && /^\d+$/.test(id.slice(thing.length + 1)));
}
