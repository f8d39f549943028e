import type { AnimalRef } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import { PHOTO_SUBJECTS } from "@pollard/records";
import { useEffect, useId, useRef, useState } from "react";
import { timeOfDay } from "../../adapters/clock.ts";
import { photoDigest } from "../../adapters/files/photo-digest.ts";
import { MUCH_SMALLER, type PhotoSize, shrinkPhoto } from "../../adapters/files/shrink-photo.ts";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { leaveJob } from "../../parts/frame/address.ts";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { SavedLine } from "../../parts/keeping/saved-line.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { type OpenDraft, useDraft } from "../../parts/keeping/use-draft.ts";
import { photoFact, type PhotoDraft, readPhotoDraft } from "./model.ts";

type Picture =
  | { readonly state: "none" | "working" | "not-a-picture" }
  | {
      readonly state: "here" | "full" | "unavailable";
      readonly file: File;
      readonly bytes: Uint8Array<ArrayBuffer>;
      readonly address: string;
    };

/**
 * Takes or chooses a picture of one goat. The place is on disk before the camera can open, since a phone may drop the page
 * behind it; whoever comes back without a picture is told so, and nothing else is lost (rule UI-83).
 */
export function PhotoScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const { house } = useGround();
  const asked = useAsked((answers) => answers.ref(animalId(id)), [id]);
  const draft = useDraft("photo", id, (): PhotoDraft => first(house.newId()), readPhotoDraft);
  if (draft.answers === undefined || asked.value === undefined)
    return (
      <Frame heading={s.photo.title} title={s.photo.title} back={`/animal/${id}`} capture="capture">
        {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
      </Frame>
    );
  return <Taking of={asked.value} draft={draft} answers={draft.answers} />;
}

function Taking(props: {
  readonly of: AnimalRef;
  readonly draft: OpenDraft<PhotoDraft>;
  readonly answers: PhotoDraft;
}) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const { of, draft, answers } = props;
  const { id } = of;
  const [picture, setPicture] = useState<Picture>({ state: "none" });
  const [lost] = useState(answers.camera === "opened");
  const [opened, setOpened] = useState(false);
  const latest = useRef(draft);
  useEffect(() => {
    latest.current = draft;
  });
  // The place is kept as soon as the page stands; leaving the page without a picture leaves nothing behind.
  useEffect(() => {
    const { answers: now } = latest.current;
    if (now !== undefined) latest.current.keep({ ...now, camera: "not-yet" }, "photo");
    // Once at once, so that Today does not see it any more; once after a tap that was still on its way to the disk.
    return () => {
      const left = latest.current;
      void house.drafts.remove(left.key);
      void left.settled().then(() => house.drafts.remove(left.key));
    };
  }, [house]);
  const address = "address" in picture ? picture.address : undefined;
  useEffect(() => () => (address === undefined ? undefined : URL.revokeObjectURL(address)), [address]);

  const name = words.label(of);
  const ready = opened || draft.saving.state === "kept";
  const open = (): void => {
    setOpened(true);
    draft.keep({ ...answers, camera: "opened" }, "photo");
  };
  const take = async (file: File, size?: PhotoSize): Promise<Uint8Array<ArrayBuffer> | undefined> => {
    setPicture({ state: "working" });
    const small = await shrinkPhoto(file, size);
    if (!small.ok) {
      setPicture({ state: "not-a-picture" });
      return undefined;
    }
    const blob = new Blob([small.value], { type: "image/jpeg" });
    setPicture({ state: "here", file, bytes: small.value, address: URL.createObjectURL(blob) });
    return small.value;
  };
  const store = async (bytes: Uint8Array<ArrayBuffer>): Promise<void> => {
    await draft.settled();
    // A picture is named by what it is, so that no hub and no phone can put another in its place.
    const photo = await photoDigest(bytes);
    const fact = photoFact({ ...answers, photo }, id, today, timeOfDay());
    const kept = await house.record([{ id: draft.entry, fact }], { draft: draft.key, photo: { id: photo, bytes } });
    if (kept.ok) leaveJob(`/animal/${id}`);
    else
      setPicture((shown) => ("bytes" in shown && shown.bytes === bytes ? { ...shown, state: kept.error.code } : shown));
  };
  /** There is no room for it: the same picture with a fraction of its bytes. */
  const storeSmaller = async (file: File): Promise<void> => {
    const bytes = await take(file, MUCH_SMALLER);
    if (bytes !== undefined) await store(bytes);
  };
  const said = saidOf(s, picture.state);
  const chosen = "bytes" in picture ? picture : undefined;
  return (
    <Frame
      heading={s.photo.of(name)}
      title={s.photo.of(name)}
      back={`/animal/${id}`}
      capture="capture"
      dock={
        <>
          {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
          {chosen !== undefined && (
            <button type="button" className="press main" onClick={() => void store(chosen.bytes)}>
              {chosen.state === "here" ? s.photo.keep : s.frame.retry}
            </button>
          )}
          {chosen?.state === "full" && (
            <div className="two">
              <button type="button" className="press" onClick={() => void storeSmaller(chosen.file)}>
                {s.photo.smaller}
              </button>
              <button type="button" className="press" onClick={() => leaveJob(`/animal/${id}`)}>
                {s.photo.without}
              </button>
            </div>
          )}
          <div className="two">
            <FileKey
              word={chosen ? s.photo.again : s.photo.take}
              weight={chosen ? "press" : "press main"}
              camera="camera"
              ready={ready}
              onOpen={open}
              onFile={take}
            />
            <FileKey word={s.photo.choose} weight="press" ready={ready} onOpen={open} onFile={take} />
          </div>
        </>
      }
    >
      <h1 className="in-board">{s.photo.of(name)}</h1>
      {lost && picture.state === "none" && <Told>{s.photo.lost}</Told>}
      <Answers
        name="photo-what"
        legend={s.photo.what}
        value={answers.what}
        onAnswer={(what) => draft.keep({ ...answers, what }, "photo")}
        choices={PHOTO_SUBJECTS.map((what) => ({ value: what, label: s.photo.subjects[what] }))}
      />
      {said !== undefined && <Told>{said}</Told>}
      {picture.state === "full" && <p>{s.photo.fullHow}</p>}
      {chosen !== undefined ? (
        <>
          <img className="photo-shown" src={chosen.address} alt={s.photo.of(name)} />
          {chosen.state === "here" && (
            <p className="quiet">{s.photo.kept(Math.max(1, Math.round(chosen.bytes.length / 1000)))}</p>
          )}
        </>
      ) : (
        <>
          <p>{s.photo.why}</p>
          <p className="quiet">{s.photo.first}</p>
        </>
      )}
      <p className="quiet">{s.photo.stays}</p>
    </Frame>
  );
}

const first = (photo: string): PhotoDraft => ({ what: "head", photo, camera: "not-yet" });

function saidOf(s: ReturnType<typeof useScreens>, state: Picture["state"]): string | undefined {
  switch (state) {
    case "working":
      return s.photo.working;
    case "not-a-picture":
      return s.photo.notAPicture;
    case "full":
      return s.photo.full;
    case "unavailable":
      return s.photo.unavailable;
    default:
      return undefined;
  }
}

/** A key that opens the camera or the chooser of pictures; not before the place is on disk. */
function FileKey(props: {
  readonly word: string;
  readonly weight: string;
  readonly camera?: "camera";
  readonly ready: boolean;
  readonly onOpen: () => void;
  readonly onFile: (file: File) => Promise<unknown>;
}) {
  const id = useId();
  return (
    <label className={`${props.weight} snug file-key`} htmlFor={id}>
      {props.word}
      <input
        id={id}
        type="file"
        accept="image/*"
        {...(props.camera === undefined ? {} : { capture: "environment" as const })}
        disabled={!props.ready}
        onClick={props.onOpen}
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file) void props.onFile(file);
        }}
      />
    </label>
  );
}
