/** Finds what is asked for by a name once for each name. */
export function onceEach<Found>(find: (name: string) => Found): (name: string) => Found {
  const found = new Map<string, { is: Found }>();
  return (name) => {
    const known = found.get(name) ?? { is: find(name) };
    found.set(name, known);
    return known.is;
  };
}
