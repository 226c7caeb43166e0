import { Text } from "ink";
import { afterEach, describe, expect, test } from "vitest";
import type { Key } from "../../src/terminal/keys.ts";
import { type MountedScreens, mountScreens } from "../../src/terminal/mount.tsx";
import { useTerminalSize } from "../../src/terminal/size.ts";
import { wordOf } from "./decoding.ts";
import { ShownOutput, TypedInput } from "./screenOf.ts";

let mounted: MountedScreens | null = null;
afterEach(async () => {
  mounted?.unmount();
  await mounted?.finished.catch(() => undefined);
  mounted = null;
});

function mount(element: Parameters<typeof mountScreens>[0], onKey: (key: Key) => void = () => undefined) {
  const output = new ShownOutput(40, 6);
  const input = new TypedInput();
  mounted = mountScreens(element, { stdin: input.asStream(), stdout: output.asStream(), onKey, ascii: false });
  return { output, input, screens: mounted };
}

/** Waits till a row is on the screen; the test's own limit of time ends it otherwise. */
async function shows(output: ShownOutput, row: string): Promise<void> {
  while (!(await output.screen()).includes(row)) await new Promise((resolve) => setImmediate(resolve));
}

function Sized() {
  const { columns, rows } = useTerminalSize();
  return (
    <Text>
      {columns}x{rows}
    </Text>
  );
}

function Broken(): never {
  throw new Error("thrown while drawing");
}

describe("mounted screens", () => {
  test("are drawn, and drawn anew with what they are given next", async () => {
    const { output, screens } = mount(<Text>one</Text>);
    await shows(output, "one");
    screens.rerender(<Text>two</Text>);
    await shows(output, "two");
    expect((await output.screen()).filter((row) => row !== "")).toEqual(["two"]);
  });

  test("follow the terminal's size", async () => {
    const { output } = mount(<Sized />);
    await shows(output, "40x6");
    output.resize(52, 9);
    await shows(output, "52x9");
    expect((await output.screen()).filter((row) => row !== "")).toEqual(["52x9"]);
  });

  test("own the keyboard: each key goes once to the one owner, as a raw one", () => {
    const heard: string[] = [];
    const { input } = mount(<Text>one</Text>, (key) => heard.push(wordOf(key)));
    expect([input.raw, input.paused]).toEqual([true, false]);
    expect(input.listenerCount("data")).toBe(1);
    expect(input.listenerCount("readable")).toBe(0);
    for (const bytes of ["7", "\x1b[A", "12.5\r", "\x03", "\x1b[1;5P"]) input.types(bytes);
    expect(heard).toEqual(["7", "up", "<12.5]", "ctrl+c"]);
  });

  test("keep ctrl+l to themselves and draw everything anew", async () => {
    const heard: string[] = [];
    const { output, input } = mount(<Text>one</Text>, (key) => heard.push(wordOf(key)));
    await shows(output, "one");
    output.spoil("\x1b[1;1Hspoilt");
    input.types("\x0c");
    await shows(output, "one");
    expect(heard).toEqual([]);
  });

  test("let go of everything when unmounted, and draw no more", async () => {
    const exitsBefore = process.listenerCount("exit");
    const { output, input, screens } = mount(<Sized />);
    await shows(output, "40x6");
    screens.unmount();
    await screens.finished;
    expect([input.raw, input.paused, input.listenerCount("data")]).toEqual([false, true, 0]);
    expect(output.listenerCount("resize")).toBe(0);
    expect(process.listenerCount("exit")).toBe(exitsBefore);
    const { writes } = output;
    screens.repaint();
    expect(output.writes).toBe(writes);
  });

  test("hand over what a component throws", async () => {
    const { input, screens } = mount(<Text>one</Text>);
    screens.rerender(<Broken />);
    await expect(screens.finished).rejects.toThrow("thrown while drawing");
    expect(input.raw).toBe(false);
  });

  test("hand over what is thrown by the very first drawing too", async () => {
    const { screens } = mount(<Broken />);
    await expect(screens.finished).rejects.toThrow("thrown while drawing");
  });
});
