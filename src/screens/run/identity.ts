/** The name of a test: the moment it was set out, in UTC to the millisecond. One writer per station keeps it unique. */
export const testIdOf = (at: string): string =>
  new Date(at)
    .toISOString()
    .replace(/[-:.Z]/g, "")
    .replace("T", "-")
    .replace(/(\d{3})$/, "-$1");
