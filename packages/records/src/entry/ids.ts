import type { Brand } from "@pollard/base";

/** Names one entry, for ever: a UUID (version 7 when made by our apps), lower case. */
export type EntryId = Brand<string, "EntryId">;

/** Names one herd, for ever. */
export type HerdId = Brand<string, "HerdId">;

/** Names one phone or computer. */
export type DeviceId = Brand<string, "DeviceId">;

/**
 * When an entry was written, on a hybrid logical clock; compare as text.
 *
 * Shape: `2026-03-01T22:50:12.345Z-0000-<device>`: device's wall time in UTC, a counter of four hexadecimal digits, the device.
 */
export type Stamp = Brand<string, "Stamp">;
