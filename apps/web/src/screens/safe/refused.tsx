import { useEffect, useState } from "react";
import type { RefusedMark } from "../../adapters/database/idb-marks.ts";
import { useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { whyRefused } from "./model.ts";

/** What the hub would not take from this phone, each by what it is, with the reason. It stays on the phone. */
export function RefusedEntries({ refused }: { readonly refused: readonly RefusedMark[] }) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [names, setNames] = useState<ReadonlyMap<string, string>>(new Map());
  useEffect(() => {
    void house.answers.lines(refused.map(({ entry }) => entry)).then((lines) => {
      const said = lines.map((line) => {
        const when = words.day(line.on, today);
        return [line.entry, s.problems.entry(s.animal.kinds[line.kind], when, line.by)] as const;
      });
      setNames(new Map(said));
    });
  }, [house, refused, s, today]);
  return (
    <>
      <Told>{s.safe.refused(refused.length)}</Told>
      <ul className="named-lines">
        {refused.map((mark) => (
          <li key={mark.entry}>
            <b>{names.get(mark.entry) ?? (mark.kind === "strike" ? s.safe.refusedStrike : s.safe.refusedOther)}</b>
            <br />
            {s.safe.refusedWhy[whyRefused(mark.code)]}
          </li>
        ))}
      </ul>
    </>
  );
}
