/**
 * How long the hub waits for whoever asks, so that slow lines, or lines kept slow on purpose, are not held for ever.
 *
 * The start of a request fits in one packet or two; the rest may be 4 MB out of a barn with hardly any signal.
 *
 * Units: milliseconds, as Node's server takes them.
 */
export const PATIENCE = {
  headersTimeout: 15_000,
  requestTimeout: 300_000,
  connectionsCheckingInterval: 2000,
} as const;
