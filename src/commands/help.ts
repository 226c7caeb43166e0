import { quoted } from "../entry/quoted.ts";
import { helpList, helpPage } from "../report/helpPage.ts";
import { keysPage, placeTitles } from "../report/keysPage.ts";
import { type CommandTold, manPage } from "../report/manPage.ts";
import { subjectNamed } from "../report/subject.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { textLook, textPage } from "./textPage.ts";

const KEYS = /^keys(?:\s+(.*))?$/i;

/** `help keys`: the keys of every place, or of those with a word in their name. */
async function helpKeys(words: string, io: Io): Promise<Ending> {
  const look = textLook(io);
  const screens = await io.screensHelp();
  const page = keysPage(screens, words, look.width);
  if (page === null) return faulty(EXIT.usage, `no place has ${quoted(words)} in its name: ${placeTitles(screens)}`);
  return done(textPage(page, look));
}

/** `sievewright help --man`: the manual as a man page. */
export const helpMan = async (commands: readonly CommandTold[], io: Io): Promise<Ending> =>
  done(manPage(io.version, commands, await io.screensHelp()));

/** `sievewright help NAME`: what is told about a value, a topic or a term; without a name, the names there are. */
export async function help(name: string, io: Io): Promise<Ending> {
  const look = textLook(io);
  const keys = KEYS.exec(name.trim());
  if (keys) return helpKeys(keys[1] ?? "", io);
  if (name === "") return done(textPage(helpList(), look));
  const subject = subjectNamed(name);
  if (!subject.ok) return faulty(EXIT.usage, `${subject.reason}; sievewright help lists the names`);
  return done(textPage(helpPage(subject.value, look.width), look));
}
