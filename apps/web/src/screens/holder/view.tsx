import { useState } from "react";
import { useGround, useScreens } from "../../house/use-house.tsx";
import { goTo, stepsBehind } from "../../parts/frame/address.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { LanguageChoice } from "./language-choice.tsx";
import { LookChoice } from "./look-choice.tsx";
import { UnitChoice } from "./unit-choice.tsx";

/** Who holds the phone, the light, the hands: changed in one tap, kept at once. */
export function HolderScreen() {
  const s = useScreens();
  const ground = useGround();
  const { house } = ground;
  const [name, setName] = useState(ground.who ?? "");
  const [wrong, setWrong] = useState<string>();
  const keep = async (): Promise<void> => {
    if (name.trim() === "") {
      setWrong(s.holder.whoMissing);
      return;
    }
    await ground.setWho(name.trim());
    if (stepsBehind() > 0) window.history.back();
    else goTo("/");
  };
  return (
    <Frame
      heading={s.holder.title}
      title={s.holder.title}
      back="/"
      capture="capture"
      dock={
        <button type="button" className="press main" onClick={() => void keep()}>
          {s.holder.keep}
        </button>
      }
    >
      <h1 className="in-board">{s.holder.title}</h1>
      <TextField
        label={s.holder.who}
        hint={s.holder.whoHint}
        need="needed"
        value={name}
        onText={setName}
        wrong={wrong}
      />
      {house.herd.phone !== undefined && <p className="quiet">{s.phones.called(house.herd.phone)}</p>}
      <LanguageChoice language={ground.language} onLanguage={ground.setLanguage} />
      <UnitChoice unit={ground.unit} onUnit={ground.setUnit} />
      <LookChoice look={ground.look} onLook={ground.setLook} />
      <a className="press desk-only" href="#/keys">
        {s.keys.link}
      </a>
      <a className="press" href="#/help">
        {s.holder.help}
      </a>
    </Frame>
  );
}
