import { useEffect, useState } from 'preact/hooks';
import type { Desk } from '../desk.ts';
import { addPhoto, type Job, making, type Photo, removePhoto } from '../job.ts';
import { MOST_PHOTOS } from '../limits.ts';
import { pictureAddress, smallPicture } from '../pictures.ts';
import { dayText } from '../record.ts';

interface Props {
  readonly desk: Desk;
  readonly job: Job;
}

/** Photos of the job, kept small beside it. */
export function Photos({ desk, job }: Props) {
  return (
    <div class="photos">
      <ul class="photo-list">
        {job.photos.map((photo) => (
          <li key={photo.id}>
            <Picture photo={photo} picture={desk.picture} />
            <button
              type="button"
              class="quiet-button"
              onClick={() => desk.act((now) => removePhoto(now, photo.id))}
            >
              Take it off
            </button>
          </li>
        ))}
      </ul>
      <AddPhoto desk={desk} job={job} label="Add a photo" />
    </div>
  );
}

interface AddProps extends Props {
  readonly label: string;
  /** Told which photo was added. */
  readonly onAdded?: (id: string) => void;
}

/** Takes a photo into the job; nothing where it holds as many as it can. */
export function AddPhoto({ desk, job, label, onAdded }: AddProps) {
  const [said, setSaid] = useState('');
  const add = async (file: File) => {
    setSaid('Making the photo small.');
    try {
      const photo = { id: making.id(), at: making.now(), caption: '' };
      await desk.putPicture(photo.id, await smallPicture(file));
      desk.act((now) => addPhoto(now, photo));
      setSaid('');
      onAdded?.(photo.id);
    } catch (failure) {
      setSaid(failure instanceof Error ? failure.message : 'The photo could not be kept.');
    }
  };
  return (
    <>
      {job.photos.length < MOST_PHOTOS && (
        <label class="file-button">
          <input
            type="file"
            accept="image/*"
            capture="environment"
            onChange={(event) => {
              const input = event.currentTarget;
              const file = input.files?.[0];
              if (file) void add(file);
              input.value = '';
            }}
          />
          <span>{label}</span>
        </label>
      )}
      <p role="status" class="said">
        {said}
      </p>
    </>
  );
}

interface PictureProps {
  readonly photo: Photo;
  readonly picture: Desk['picture'];
}

/** One photo, fetched from where it is kept. */
export function Picture({ photo, picture }: PictureProps) {
  const [address, setAddress] = useState('');
  useEffect(() => {
    let gone = false;
    void picture(photo.id).then(async (found) => {
      const made = found ? await pictureAddress(found) : '';
      if (!gone) setAddress(made);
    });
    return () => {
      gone = true;
    };
  }, [photo.id, picture]);
  if (address === '') return <p class="quiet">Photo of {dayText(photo.at)}</p>;
  return <img src={address} alt={photo.caption || `Taken ${dayText(photo.at)}`} />;
}
