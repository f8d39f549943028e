import { useState } from "react";
import type { Device, KeptHerd } from "../../adapters/device.ts";
import { joinHub } from "../../adapters/hub/hub-peer.ts";
import { useScreens } from "../../house/use-house.tsx";
import { TextField } from "../../parts/text-field.tsx";
import { digitsOf, whyNot } from "./model.ts";

/** Joining a herd with a code: the digits, and what the phone is called. What the herd holds comes with the first exchange. */
export function JoinForm(props: {
  readonly device: Device;
  readonly code: string;
  readonly name: string;
  readonly onHerd: (herd: KeptHerd) => void;
}) {
  const s = useScreens();
  const [code, setCode] = useState(props.code);
  const [name, setName] = useState(props.name);
  const [working, setWorking] = useState(false);
  const [wrong, setWrong] = useState<string>();
  const join = async (): Promise<void> => {
    if (working) return;
    setWorking(true);
    setWrong(undefined);
    const joined = await joinHub(document.baseURI, { code: digitsOf(code), name });
    setWorking(false);
    if (!joined.ok) {
      setWrong(s.phones.wrong[whyNot(joined.error)]);
      return;
    }
    const { herd: id, token, role } = joined.value;
    const before = (await props.device.herds()).find((each) => each.id === id);
    const herd: KeptHerd = { id, name: before?.name ?? s.frame.unnamed, sort: "own", token, role, phone: name.trim() };
    await props.device.keepHerd(herd);
    props.onHerd(herd);
  };
  return (
    <form
      className="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void join();
      }}
    >
      <p>{s.phones.joinIntro}</p>
      <TextField
        label={s.phones.digits}
        hint={s.phones.digitsHint}
        need="needed"
        keys="numeric"
        value={code}
        onText={setCode}
      />
      <TextField label={s.phones.phoneName} hint={s.phones.phoneNameHint} need="needed" value={name} onText={setName} />
      {wrong !== undefined && (
        <p role="alert" className="card">
          {wrong}
        </p>
      )}
      <button type="submit" className="press main" aria-disabled={working}>
        {working ? s.phones.joining : s.phones.joinNow}
      </button>
    </form>
  );
}
