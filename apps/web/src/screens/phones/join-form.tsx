import { useState } from "react";
import type { Device, KeptHerd } from "../../adapters/device.ts";
import { joinHub } from "../../adapters/hub/hub-peer.ts";
import { useScreens } from "../../house/use-house.tsx";
import { type Lack, Lacks } from "../../parts/keeping/lacks.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
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
  const [wrong, setWrong] = useState<Lack>();
  const [tries, setTries] = useState(0);
  const missing: readonly Lack[] = [
    ...(digitsOf(code) === "" ? [{ field: "code", said: s.frame.toAnswer(s.phones.digits) }] : []),
    ...(name.trim() === "" ? [{ field: "phone", said: s.frame.toAnswer(s.phones.phoneName) }] : []),
  ];
  const lacks = missing.length > 0 ? missing : wrong === undefined ? [] : [wrong];
  const join = async (): Promise<void> => {
    if (working) return;
    setTries(tries + 1);
    if (missing.length > 0) return;
    setWorking(true);
    setWrong(undefined);
    const kept = await props.device.herds();
    const had = kept.flatMap(({ token }) => token ?? []);
    const joined = await joinHub(document.baseURI, { code: digitsOf(code), name, had });
    setWorking(false);
    if (!joined.ok) {
      setWrong({ field: "code", said: s.phones.wrong[whyNot(joined.error)] });
      setTries(tries + 2);
      return;
    }
    const { herd: id, token, role } = joined.value;
    const before = kept.find((each) => each.id === id);
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
      <Lacks of={{ tries, lacks: tries === 0 ? [] : lacks }}>
        <p>{s.phones.joinIntro}</p>
        <TextField
          name="code"
          label={s.phones.digits}
          hint={s.phones.digitsHint}
          need="needed"
          keys="numeric"
          value={code}
          onText={setCode}
        />
        <TextField
          name="phone"
          label={s.phones.phoneName}
          hint={s.phones.phoneNameHint}
          need="needed"
          value={name}
          onText={setName}
        />
        <button type="submit" className="press main" aria-disabled={working}>
          {working ? s.phones.joining : s.phones.joinNow}
        </button>
      </Lacks>
    </form>
  );
}
