const nameOf = (ms: number): string =>
  new Date(ms)
    .toISOString()
    .replace(/[-:.Z]/g, "")
    .replace("T", "-")
    .replace(/(\d{3})$/, "-$1");

/**
 * The name of a test: the moment it was set out, in UTC to the millisecond. The clock counts whole seconds and can be set
 * back, so a name that another test has is not taken: the next free millisecond is.
 */
export function testIdOf(at: string, taken: ReadonlySet<string>): string {
  let ms = Date.parse(at);
  while (taken.has(nameOf(ms))) ms += 1;
  return nameOf(ms);
}
