import type { Animal } from "@pollard/records";
import { Link } from "wouter";
import { useScreens, useToday, words } from "../../house/use-house.tsx";
import { Photo } from "../../parts/pictures/photo.tsx";
import { photosShown } from "./model.ts";

/** The pictures of one goat, the newest first, and the way to take another. */
export function AnimalPhotos({ animal }: { readonly animal: Animal }) {
  const s = useScreens();
  const today = useToday();
  return (
    <section className="part">
      <h2>{s.photo.title}</h2>
      {animal.photos.length === 0 && <p>{s.photo.none}</p>}
      <div className="photo-row">
        {photosShown(animal).map(({ photo, what, on, by }) => (
          <figure key={photo}>
            <Photo id={photo} alt={s.photo.alt(s.photo.subjects[what], words.day(on, today), by)} />
            <figcaption>
              {s.photo.subjects[what]}
              <br />
              <span className="quiet">
                {words.day(on, today)} {s.animal.by(by)}
              </span>
            </figcaption>
          </figure>
        ))}
      </div>
      <Link href={`/photo/${animal.id}`} className="press start">
        {s.photo.take}
      </Link>
    </section>
  );
}
