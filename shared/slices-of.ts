/** Items in their order, so many at a time; the last slice has what is left. */
export function slicesOf<Item>(items: readonly Item[], length: number): Item[][] {
  return Array.from({ length: Math.ceil(items.length / length) }, (_, index) =>
    items.slice(index * length, (index + 1) * length),
  );
}
