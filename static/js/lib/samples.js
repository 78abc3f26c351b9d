/** Which sample is meant: times ascend. */

/** Index of the sample nearest to a time; −1 without samples. */
export function nearest(times, time) {
  if (!times.length) return -1;
  let low = 0;
  let high = times.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (times[middle] <= time) low = middle;
    else high = middle;
  }
  return time - times[low] <= times[high] - time ? low : high;
}

/** The time so many samples further, or the last one that way. */
export function stepped(times, time, by) {
  const index = nearest(times, time) + by;
  return times[Math.min(Math.max(index, 0), times.length - 1)];
}
