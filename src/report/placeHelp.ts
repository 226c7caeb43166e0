/** A key as it is told: its names, and what it does. */
export interface KeyTold {
  readonly keys: string;
  readonly help: string;
}

/** What the screens tell of one place: what it is for, its keys by what is being done there. */
export interface PlaceHelp {
  readonly title: string;
  readonly about: string;
  readonly tables: readonly { readonly when: string; readonly keys: readonly KeyTold[] }[];
}

/** All places, and the keys that do the same in each of them. */
export interface ScreensHelp {
  readonly places: readonly PlaceHelp[];
  readonly everywhere: readonly KeyTold[];
}
