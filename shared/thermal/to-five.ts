/** To the nearest 5, as people read temperatures and differences in °C; halves go up. */
export function toFive(value: number): number {
  return Math.round(value / 5) * 5;
}
