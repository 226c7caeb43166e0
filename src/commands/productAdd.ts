import { createHash } from "node:crypto";
import type { Product } from "../record/product.ts";
import { readProduct } from "../record/readExchanged.ts";
import { dataFolder } from "../store/dataFolder.ts";
import type { Loading } from "../store/store.ts";
import { drawable } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { newStation } from "./newStation.ts";
import { openForWriting } from "./openForWriting.ts";
import { initialsIn } from "./productSigner.ts";
import type { SignerOptions } from "./signer.ts";

export interface ProductAddOptions extends SignerOptions {
  readonly by?: string;
  readonly data?: string;
}

const LONGEST_FROM = 400;

/** `sievewright product add FILE`: a product revision into the library, told to the log. */
export async function productAdd(name: string, options: ProductAddOptions, io: Io): Promise<Ending> {
  const by = initialsIn(options, io);
  if (!by.ok) return by.ending;
  const file = await inputFile(name, io);
  if (!file.ok) return file.ending;
  const product = readProduct(file.value);
  if (!product.ok) return faulty(EXIT.badData, `${inputName(name)}: ${product.reason}`);
  const bytesSha256 = createHash("sha256").update(file.value).digest("hex");
  const fromPath = drawable(inputName(name)).slice(-LONGEST_FROM);
  return load(
    product.value,
    { fromPath, bytesSha256, by: by.value, at: io.now() },
    dataFolder(options.data, io.env),
    options,
    io,
  );
}

async function load(
  product: Product,
  loading: Loading,
  folder: string,
  signer: SignerOptions,
  io: Io,
): Promise<Ending> {
  const store = await openForWriting(folder, io, newStation(), signer);
  if (!store.ok) return store.ending;
  const by = store.value.session?.initials ?? loading.by;
  const added = await store.value.addProduct(product, { ...loading, by });
  const { readOnly } = store.value;
  await store.value.close();
  const name = `${product.code} revision ${product.revision}`;
  if (!added.ok) return faulty(readOnly === null ? EXIT.badData : EXIT.ioError, added.reason);
  return done(
    added.value === "added"
      ? `${name} added to the library of ${folder}\n`
      : `${name} is in the library of ${folder} already, unchanged\n`,
  );
}
