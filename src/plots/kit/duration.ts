/** `45 s`, `12 min`, `7 h 20 min`, `16 h`: times that nobody counts in seconds. */
export function duration(seconds: number): string {
  if (seconds < 59.5) return `${Math.round(seconds)}\u00a0s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes}\u00a0min`;
  const rest = minutes % 60;
  return `${Math.floor(minutes / 60)}\u00a0h${rest === 0 ? '' : `\u00a0${rest}\u00a0min`}`;
}

/** `0:45`, `7:20`: hours and minutes, for tables with many of them. */
export function hoursAndMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}
