/**
 * How far this phone's clock is ahead of the hub's, seconds; below zero if it is behind, `undefined` if the hub does not say.
 *
 * The hub's answer says when it was written, to the second; we say when we asked and when it came. The middle of the two is
 * wrong by half the way there and back at most, which is seconds where minutes matter.
 *
 * Units:  `date` as in the Date header; `asked` and `came` in ms since the Unix epoch by this phone's clock.
 * Source: RFC 9110, 6.6.1 (Date); the middle of the way there and back as in RFC 5905.
 */
export function aheadOfHub(date: string | null, asked: number, came: number): number | undefined {
  const hub = date === null ? Number.NaN : Date.parse(date);
  return Number.isNaN(hub) ? undefined : Math.round(((asked + came) / 2 - hub) / 1000);
}
