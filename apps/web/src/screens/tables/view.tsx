import type { Formulas } from "@pollard/records";
import { useState } from "react";
import { today as clockToday } from "../../adapters/clock.ts";
import { packedFiles } from "../../adapters/files/packed-files.ts";
import { useGround, useScreens } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { backupName } from "../../house/backup-name.ts";

/** Everything on record as tables that any spreadsheet opens, packed with the ledger and its schema. */
export function TablesScreen() {
  const s = useScreens();
  const { house } = useGround();
  const [formulas, setFormulas] = useState<Formulas>("as-is");
  const [told, setTold] = useState<string>();
  const make = async (): Promise<void> => {
    const files = await house.answers.tables(formulas);
    const ledger = { name: "herd.jsonl", text: (await house.answers.backupText()).text };
    const blob = await packedFiles([ledger, ...files]);
    const name = backupName(`${house.herd.name} tables`, clockToday(), "zip");
    const url = URL.createObjectURL(blob);
    const link = document.createElement("a");
    link.href = url;
    link.download = name;
    link.click();
    URL.revokeObjectURL(url);
    setTold(s.lists.tablesMade(name, files.filter((file) => file.name.endsWith(".csv")).length));
  };
  return (
    <Frame
      heading={s.lists.tables}
      title={s.lists.tables}
      back="/safe"
      place="safe"
      dock={
        <button type="button" className="press main" onClick={() => void make()}>
          {s.lists.makeTables}
        </button>
      }
    >
      <h1 className="in-board">{s.lists.tables}</h1>
      <p>{s.lists.tablesIntro}</p>
      <p>{s.lists.tablesHow}</p>
      <Answers
        name="guard"
        legend={s.lists.guard}
        shape="column"
        value={formulas}
        onAnswer={setFormulas}
        choices={(["as-is", "guard"] as const).map((each) => ({ value: each, label: s.lists.guardAnswers[each] }))}
      />
      <p className="quiet">{s.lists.guardWhy}</p>
      {told !== undefined && <Told className="card">{told}</Told>}
    </Frame>
  );
}
