import { useGround, useScreens } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { JoinForm } from "./join-form.tsx";

/** Joining with a code on a phone that has a herd open already; the one that is joined opens. */
export function JoinScreen({ code }: { readonly code: string | undefined }) {
  const s = useScreens();
  const { device, openHerd } = useGround();
  return (
    <Frame heading={s.phones.join} title={s.phones.join} back="/safe">
      <h1 className="in-board">{s.phones.join}</h1>
      <JoinForm device={device} code={code ?? ""} name="" onHerd={(herd) => void openHerd(herd)} />
    </Frame>
  );
}
