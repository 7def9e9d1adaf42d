/** A queue that hands out the least of its items first; of equals the one that came first. */
export class LeastFirst<T> {
  readonly #compare: (a: T, b: T) => number;
  readonly #heap: { item: T; came: number }[] = [];
  #came = 0;

  constructor(compare: (a: T, b: T) => number) {
    this.#compare = compare;
  }

  add(item: T): void {
    const heap = this.#heap;
    const entry = { item, came: this.#came++ };
    let i = heap.length;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!this.#isBefore(entry, heap[parent]!)) break;
      heap[i] = heap[parent]!;
      i = parent;
    }
    heap[i] = entry;
  }

  take(): T | null {
    const heap = this.#heap;
    const first = heap[0];
    if (!first) return null;
    const last = heap.pop()!;
    if (heap.length > 0) {
      let i = 0;
      for (;;) {
        let child = 2 * i + 1;
        if (child >= heap.length) break;
        if (child + 1 < heap.length && this.#isBefore(heap[child + 1]!, heap[child]!)) child++;
        if (!this.#isBefore(heap[child]!, last)) break;
        heap[i] = heap[child]!;
        i = child;
      }
      heap[i] = last;
    }
    return first.item;
  }

  #isBefore(a: { item: T; came: number }, b: { item: T; came: number }): boolean {
    const order = this.#compare(a.item, b.item);
    return order < 0 || (order === 0 && a.came < b.came);
  }
}
