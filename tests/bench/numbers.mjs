// Numbers of a run: rising order, the value below which a share of them lies, and how a time is written.
export const sort = (values) => [...values].sort((a, b) => a - b);
export const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
export const ms = (value) => `${value < 10 ? value.toFixed(2) : value.toFixed(0)} ms`;
export const times = (ours, floor) => (ours / floor).toFixed(1);
