import { useState } from "react";
import { readShortcuts, writeShortcuts } from "../../adapters/own-settings/shortcuts.ts";
import { useScreens } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";

/** Every key that does something, and the answer that switches single keys off. */
export function KeysScreen() {
  const s = useScreens();
  const [shortcuts, setShortcuts] = useState(() => readShortcuts(localStorage));
  return (
    <Frame heading={s.keys.title} title={s.keys.title} back="/">
      <h1 className="in-board">{s.keys.title}</h1>
      <Answers
        name="shortcuts"
        legend={s.keys.single}
        value={shortcuts}
        choices={(["on", "off"] as const).map((value) => ({ value, label: s.keys.answers[value] }))}
        onAnswer={(answer) => {
          writeShortcuts(localStorage, answer);
          setShortcuts(answer);
        }}
      />
      <p className="quiet">{s.keys.kept}</p>
      <section className="part">
        <h2>{s.keys.anywhere}</h2>
        <dl className="facts">
          {s.keys.singleKeys.map(({ key, does }) => (
            <div key={key} className="key-fact">
              <dt>
                <kbd>{key}</kbd>
              </dt>
              <dd>{does}</dd>
            </div>
          ))}
        </dl>
      </section>
      <section className="part">
        <h2>{s.pedigree.title}</h2>
        <ul className="plain-lines">
          {s.pedigree.keyLines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
      <section className="part">
        <h2>{s.keys.elsewhere}</h2>
        <ul className="plain-lines">
          {s.keys.lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
    </Frame>
  );
}
