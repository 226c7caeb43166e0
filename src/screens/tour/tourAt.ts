/** Which step of the tour is told, and how many entries the practice test held when it began. */
export interface TourAt {
  readonly at: number;
  readonly entries: number;
}
