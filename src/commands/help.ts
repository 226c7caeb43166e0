import { helpList, helpPage } from "../report/helpPage.ts";
import { subjectNamed } from "../report/subject.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { textLook, textPage } from "./textPage.ts";

/** `sievewright help NAME`: what is told about a value or a topic; without a name, the names there are. */
export async function help(name: string, io: Io): Promise<Ending> {
  const look = textLook(io);
  if (name === "") return done(textPage(helpList(), look));
  const subject = subjectNamed(name);
  if (!subject.ok) return faulty(EXIT.usage, `${subject.reason}; sievewright help lists the names`);
  return done(textPage(helpPage(subject.value, look.width), look));
}
