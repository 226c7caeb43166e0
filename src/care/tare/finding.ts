/** What an empty mass tells of one sieve. */
export type TareState =
  /** Too few weighings to know its level. */
  | "learning"
  | "steady"
  /** The latest weighing alone is off: weigh it again. */
  | "odd"
  /** Risen slowly: grains in the mesh. */
  | "caught"
  /** Risen in one step: a lump, another sieve, a repair. */
  | "step up"
  /** Fallen slowly: wear. */
  | "wearing"
  /** Fallen in one step: damage, another sieve. */
  | "step down";

export interface TareFinding {
  readonly serial: string;
  readonly apertureUm: number;
  readonly state: TareState;
  readonly levelG: number | null;
  /** From which change on something is told of this sieve, in g; null while its level is not known. */
  readonly toldFromG: number | null;
  /** How far the sieve is off its cleaned level now, in g: the median of the last three weighings. */
  readonly offG: number | null;
  /** The moment of the weighing with which the change began. */
  readonly since: string | null;
  readonly text: string;
  readonly advice: string | null;
}

/** All empty masses moved together. */
export interface CommonFinding {
  /** By the same mass or the same part of it: the balance. Each by its own: another stack, or sieves changed about. */
  readonly cause: "balance" | "stack";
  /** Which is common: the mass, or the part of the mass. */
  readonly course: "mass" | "part";
  readonly offG: number;
  readonly since: string;
  readonly text: string;
  readonly advice: string;
}
