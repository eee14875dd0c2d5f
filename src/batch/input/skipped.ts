/**
 * Why a file or folder is passed over. `extension`: not one of those asked for; `hidden`: the name begins with a dot;
 * `seen`: the same folder was read by another path; `special`: a pipe, a socket or a device within a folder; `format`:
 * bytes that are neither text nor a picture that can be read; `empty`: no grid in it.
 */
export const SKIP_REASONS = ['extension', 'hidden', 'seen', 'special', 'format', 'empty'] as const
/** Why something was passed over. */
export type SkipReason = (typeof SKIP_REASONS)[number]

/** What was passed over, and why. */
export interface Skipped {
  readonly because: SkipReason
  readonly message: string
}
