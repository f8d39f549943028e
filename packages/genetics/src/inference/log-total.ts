/** The natural log of a sum, from the natural logs of what is summed; -Infinity for a sum of nothing. */
export function logTotal(logs: Float64Array | readonly number[]): number {
  let top = Number.NEGATIVE_INFINITY;
  for (const log of logs) top = Math.max(top, log);
  if (top === Number.NEGATIVE_INFINITY) return top;
  let sum = 0;
  for (const log of logs) sum += Math.exp(log - top);
  return top + Math.log(sum);
}
