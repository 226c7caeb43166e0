import { type Assessment, assess } from "../assess.ts";
import { partitionChart, partitionLegend } from "../chart/partitionChart.ts";
import type { DeckPerformance } from "../grading/deck/deckPerformance.ts";
import type { Interpolation } from "../record/product.ts";
import { deckOf, STREAMS, type StreamName } from "../report/deckFigures.ts";
import { deckJson } from "../report/deckJson.ts";
import { deckPage } from "../report/deckPage.ts";
import { done, type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import { inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { numberOption } from "./numberOption.ts";
import { textLook, textPage } from "./textPage.ts";
import { READABILITY_G, weighedSheet } from "./weighedSheet.ts";

const ROWS = 16;

/** What the sheets of the three streams are called on the command line. */
export type DeckSheets = Readonly<Record<StreamName, string>>;

export interface DeckOptions {
  readonly cut?: string;
  readonly interpolate?: Interpolation;
  readonly json?: boolean;
}

interface Stream {
  readonly assessment: Assessment;
  readonly notes: readonly string[];
}

/** `sievewright deck FEED OVER UNDER`: how well a screen deck separates, from the gradings of its three streams. */
export async function deck(sheets: DeckSheets, options: DeckOptions, io: Io): Promise<Ending> {
  if (STREAMS.filter((stream) => sheets[stream] === "-").length > 1)
    return faulty(EXIT.usage, "only one of the three sheets can come from standard input");
  const cut = options.cut === undefined ? reached(undefined) : numberOption("--cut", options.cut);
  if (!cut.ok) return cut.ending;
  const streams = await streamsOn(sheets, options, io);
  if (!streams.ok) return streams.ending;
  const { feed, oversize, undersize } = streams.value;
  const { interpolation } = feed.assessment;
  const graded = { feed: feed.assessment, oversize: oversize.assessment, undersize: undersize.assessment };
  const choices = { interpolation, ...(cut.value === undefined ? {} : { cutUm: cut.value }) };
  const performance = deckOf(graded, choices);
  const fault = faultOf(performance, cut.value);
  if (fault !== null) return faulty(EXIT.badData, fault);
  const notes = [...feed.notes, ...oversize.notes, ...undersize.notes];
  return done(
    options.json
      ? deckJson(performance, interpolation, notes)
      : pageOf(performance, { names: sheets, interpolation, notes }, io),
  );
}

/** Without a share of oversize nothing follows; an aperture that was asked for must be one of the stack. */
function faultOf({ oversizeShare, cutUm }: DeckPerformance, asked: number | undefined): string | null {
  if (!oversizeShare.determinable) return oversizeShare.reason;
  return asked !== undefined && !cutUm.determinable ? cutUm.reason : null;
}

async function streamsOn(sheets: DeckSheets, options: DeckOptions, io: Io): Promise<Step<Record<StreamName, Stream>>> {
  const feed = await streamOn("feed", sheets, options, io);
  if (!feed.ok) return feed;
  const oversize = await streamOn("oversize", sheets, options, io);
  if (!oversize.ok) return oversize;
  const undersize = await streamOn("undersize", sheets, options, io);
  if (!undersize.ok) return undersize;
  return reached({ feed: feed.value, oversize: oversize.value, undersize: undersize.value });
}

async function streamOn(
  stream: StreamName,
  sheets: DeckSheets,
  { interpolate }: DeckOptions,
  io: Io,
): Promise<Step<Stream>> {
  const name = sheets[stream];
  const weighed = await weighedSheet(name, io);
  if (!weighed.ok) return weighed;
  const { masses } = weighed.value;
  const choice = interpolate === undefined ? {} : { interpolation: interpolate };
  const assessed = assess(masses, null, { readabilityG: READABILITY_G, ...choice });
  if (!assessed.ok) return ended(EXIT.badData, `${inputName(name)}: ${assessed.reason}`);
  const pan = masses.panAssumed ? ["the pan was not weighed, what is missing from the charge counts as pan"] : [];
  const notes = [...pan, ...assessed.value.notices.map(({ text }) => text)];
  return reached({ assessment: assessed.value, notes: notes.map((text) => `${stream}: ${text}`) });
}

function pageOf(performance: DeckPerformance, head: Parameters<typeof deckPage>[1], io: Io): string {
  const look = textLook(io);
  const { width, ascii } = look;
  const chart = partitionChart({ performance, interpolation: head.interpolation, width, height: ROWS, ascii });
  return textPage(deckPage(performance, head, { width, chart, legend: partitionLegend(ascii) }), look);
}
