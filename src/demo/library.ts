import filterSand from "../../shared/products/TH-0510.json" with { type: "json" };
import barley from "../../shared/products/TH-BAR.json" with { type: "json" };
import masonrySand from "../../shared/products/TH-MAS.json" with { type: "json" };
import granules from "../../shared/products/TH-PG3.json" with { type: "json" };
import circular from "../../shared/programs/TH-C08.json" with { type: "json" };
import tapping from "../../shared/programs/TH-T10.json" with { type: "json" };
import verticalThrow from "../../shared/programs/TH-V10.json" with { type: "json" };
import { type Product, ProductSchema } from "../record/product.ts";
import { type Program, ProgramSchema } from "../record/program.ts";

/** The invented products and programs that the plant publishes to its stations; read like any other file. */
export const demoProducts = (): Product[] =>
  [filterSand, masonrySand, barley, granules].map((file) => ProductSchema.parse(file));

export const demoPrograms = (): Program[] =>
  [verticalThrow, circular, tapping].map((file) => ProgramSchema.parse(file));
