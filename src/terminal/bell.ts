/** Sounds the terminal's bell, unless the station is set to be quiet. */
export type Bell = () => void;

export function createBell(stdout: Pick<NodeJS.WriteStream, "write">, quiet = false): Bell {
  return () => {
    if (!quiet) stdout.write("\x07");
  };
}
