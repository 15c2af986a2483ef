export const canLocate = () => Boolean(isSecureContext && navigator.geolocation);

export const isAllowed = async () => {
  try { return (await navigator.permissions.query({ name: 'geolocation' })).state === 'granted'; } catch { return false; }
};

const round = (value, digits) => Math.round(value * 10 ** digits) / 10 ** digits;

/** Follows the phone until `stop()`; gives every place that is at least as good as the best one of the last half minute. */
export const follow = (onPlace, onProblem) => {
  let best;
  const id = navigator.geolocation.watchPosition(({ coords, timestamp }) => {
    const place = { latitudeDeg: round(coords.latitude, 7), longitudeDeg: round(coords.longitude, 7), accuracyM: round(coords.accuracy, 1), at: timestamp };
    if (best && place.accuracyM > best.accuracyM && place.at - best.at < 30_000) return;
    best = place;
    onPlace(place);
  }, error => onProblem(error.code === 1 ? 'The position is not allowed for this page.' : 'No position yet.'), { enableHighAccuracy: true, maximumAge: 5000, timeout: 30_000 });
  return () => navigator.geolocation.clearWatch(id);
};

/** Metres between two places that lie within kilometres of each other. */
export const metres = (a, b) => {
  const rad = Math.PI / 180;
  const north = (a.latitudeDeg - b.latitudeDeg) * rad;
  const east = (a.longitudeDeg - b.longitudeDeg) * rad * Math.cos((a.latitudeDeg + b.latitudeDeg) / 2 * rad);
  return 6_371_000 * Math.hypot(north, east);
};

export const inMetres = value => value < 10 ? value.toFixed(1) + ' m' : value < 1000 ? Math.round(value) + ' m' : (value / 1000).toFixed(1) + ' km';
