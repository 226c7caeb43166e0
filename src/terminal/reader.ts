type Environment = Readonly<Record<string, string | undefined>>;

/** Whether the environment asks for text in reading order, as Ink's own programs are asked. */
export const wantsReader = (env: Environment): boolean => env.INK_SCREEN_READER === "true";
