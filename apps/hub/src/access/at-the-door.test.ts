import jsQR from "jsqr";
import { expect, test } from "vitest";
import { onEachEngine, type PlaceUnderTest } from "../testing/engines.ts";
import { hubProgram } from "../testing/hub-program.ts";

const { run } = hubProgram();

/** What a reader made by others finds in squares that a terminal shows, each character two squares, one above the other. */
function cameraSees(said: string): string | undefined {
  const lines = said.split("\n").filter((line) => /^[█▀▄ ]{20,}$/.test(line));
  const [scale, width] = [4, (lines[0]?.length ?? 0) * 4];
  const pixels = new Uint8ClampedArray(width * lines.length * 2 * scale * 4);
  for (let at = 0; at < pixels.length / 4; at++) {
    const [x, y] = [Math.floor((at % width) / scale), Math.floor(at / width / scale)];
    const shown = lines[Math.floor(y / 2)]?.[x] ?? " ";
    const light = (y % 2 === 0 ? "█▀" : "█▄").includes(shown);
    pixels.set([light ? 255 : 0, light ? 255 : 0, light ? 255 : 0, 255], at * 4);
  }
  return jsQR(pixels, width, lines.length * 2 * scale)?.data;
}

onEachEngine("at the door of a hub without a browser", ({ engine, newPlace }) => {
  const at = (place: PlaceUnderTest, ...args: readonly string[]) =>
    run(["--data", place.folder, ...args], place.address === undefined ? undefined : { DATABASE_URL: place.address });
  const joining = async (house: string, said: string, name: string) => {
    const code = /^([\d ]{14})$/m.exec(said)?.[1];
    const body = JSON.stringify({ code, name });
    const headers = { "content-type": "application/json" };
    return fetch(`${house}/api/join`, { method: "POST", headers, body });
  };

  test("[HU-92] a herd begins on a running hub: its first phone joins by a code, is listed, and let out", {
    timeout: 60_000,
  }, async () => {
    const place = await newPlace();
    const hub = at(place, "--port", "0");
    const house = await hub.address();
    expect(await at(place, "--phones").ended).toMatchObject({ code: 0, out: "No phone was let in yet.\n" });
    const unsaid = await at(place, "--let-in", "keeper").ended;
    expect(unsaid).toMatchObject({ code: 1, out: "" });
    expect(unsaid.problems).toContain("--herd new");
    const shown = await at(place, "--let-in", "keeper", "--herd", "new", "--name", "https://goats.example").ended;
    expect(shown).toMatchObject({ code: 0, problems: "" });
    const page = /^https:\/\/goats\.example\/#\/join\/\d{12}$/m.exec(shown.out)?.[0];
    expect(page).toContain(shown.out.slice(0, 14).replaceAll(" ", ""));
    expect(cameraSees(shown.out)).toBe(page);
    const joined = await joining(house, shown.out, "Ines's phone");
    expect(joined.status).toBe(200);
    const { herd, token, role } = (await joined.json()) as Readonly<Record<string, string>>;
    expect(role).toBe("keeper");
    const entries = () =>
      fetch(`${house}/api/herds/${herd}/entries`, { headers: { authorization: `Bearer ${token}` } });
    expect((await entries()).status).toBe(200);

    // A herd whose first phone has written nothing yet is the only one, and so needs no naming.
    const second = await at(place, "--let-in", "helper").ended;
    expect(second.out).toContain(`herd ${herd}`);
    expect((await joining(house, second.out, "Milo's phone")).status).toBe(200);
    expect((await joining(house, second.out, "Another")).status).toBe(403);
    const list = await at(place, "--phones").ended;
    expect(list.out).toMatch(/^[\da-f]{8}  Milo's phone \(helper\), herd .*seen never$/m);
    expect(list.out).toMatch(/^[\da-f]{8}  Ines's phone \(keeper\), herd .*seen \d{4}-/m);
    for (const secret of [token, shown.out.slice(0, 14)]) expect(list.out).not.toContain(secret);

    const id = /^([\da-f]{8})  Ines/m.exec(list.out)?.[1] ?? "";
    expect(await at(place, "--let-out", "Nobody's phone").ended).toMatchObject({ code: 1, out: "" });
    expect(await at(place, "--let-out", id.slice(0, 3)).ended).toMatchObject({ code: 1, out: "" });
    expect((await entries()).status).toBe(200);
    expect(await at(place, "--let-out", id).ended).toMatchObject({ code: 0, problems: "" });
    expect((await entries()).status).toBe(401);
    expect((await at(place, "--phones").ended).out).toMatch(/Ines's phone .* let in no longer since /);
    hub.child.kill("SIGTERM");
    expect(await hub.ended).toMatchObject({ code: 0, problems: "" });
  });

  test.runIf(engine === "libsql")("[HU-92] where nothing is kept, nothing is made by asking", async () => {
    const place = await newPlace();
    const end = await at(place, "--phones").ended;
    expect(end).toMatchObject({ code: 3, out: "" });
    expect(end.problems).toContain(place.folder);
    expect(end.problems).not.toMatch(/\n\s+at /);
  });
});
