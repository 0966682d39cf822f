/** The words that columns of a log are called by. */
import type { BusKind, ColumnKind } from './units.ts';

const words = (text: string): readonly string[] => text.split(', ');

/** Words that columns begin with, in lower case and without accents: English, German, French, Spanish, Italian, Dutch, Polish. */
export const WORDS: { readonly [kind in ColumnKind]: readonly string[] } = {
  time: words(
    'time, t, timestamp, time stamp, elapsed, elapsed time, date time, datetime, date and time, utc, ' +
      'utc time, gps time, clock, device time, system time, local time, time of day, zeit, uhrzeit, ' +
      'zeitstempel, zeitpunkt, datum uhrzeit, datum zeit, temps, heure, horodatage, date heure, tiempo, ' +
      'hora, fecha hora, tempo, ora, data ora, tijd, tijdstip, czas',
  ),
  speed: words(
    'speed, v, velocity, gps speed, ground speed, speed over ground, vehicle speed, car speed, speed gps, ' +
      'speed obd, obd speed, wheel speed, geschwindigkeit, gps geschwindigkeit, tempo, ' +
      'fahrzeuggeschwindigkeit, vitesse, vitesse gps, velocidad, velocidad gps, velocita, velocita gps, ' +
      'snelheid, predkosc',
  ),
  latitude: words(
    'latitude, lat, gps latitude, position lat, breite, breitengrad, geografische breite, latitud, ' +
      'latitudine, breedtegraad, szerokosc geograficzna',
  ),
  longitude: words(
    'longitude, lon, lng, long, gps longitude, position long, lange, laenge, langengrad, laengengrad, ' +
      'geografische lange, longitud, longitudine, lengtegraad, długosc geograficzna',
  ),
  altitude: words(
    'altitude, alt, elevation, ele, height, gps altitude, gps height, hohe, hoehe, gps hohe, altitud, ' +
      'altitudine, quota, hoogte, wysokosc',
  ),
  wheel: words(
    'wheel, wheels, wheel speed, wheel speeds, wheelspeed, wheel rpm, driven wheels, speed wheel, ' +
      'rad, radgeschwindigkeit, raddrehzahl, vitesse roue, vitesse roues, velocidad rueda, velocidad ruedas, ' +
      'velocita ruota, velocita ruote, wielsnelheid, predkosc kola',
  ),
  power: words(
    'power, p, pack power, battery power, hv power, hv battery power, dc power, inverter power, inverter dc power, ' +
      'leistung, batterieleistung, puissance, puissance batterie, potencia, potencia bateria, potenza, ' +
      'potenza batteria, vermogen, moc',
  ),
  voltage: words(
    'voltage, u, pack voltage, battery voltage, hv voltage, hv battery voltage, dc voltage, dc bus voltage, ' +
      'inverter voltage, inverter dc voltage, volts, spannung, batteriespannung, tension, tension batterie, ' +
      'voltaje, voltaje bateria, tensione, tensione batteria, spanning, napiecie',
  ),
  current: words(
    'current, i, pack current, battery current, hv current, hv battery current, dc current, dc bus current, ' +
      'inverter current, inverter dc current, amps, strom, batteriestrom, courant, courant batterie, ' +
      'corriente, corriente bateria, corrente, corrente batteria, stroom, prad',
  ),
};
/** What every log is looked through for. */
export const KINDS: readonly ColumnKind[] = ['time', 'speed', 'latitude', 'longitude', 'altitude'];
/** What else the bus of a car tells. */
export const BUS_KINDS: readonly BusKind[] = ['wheel', 'power', 'voltage', 'current'];
/** Kinds whose unit may be all that a column is called by. */
export const BY_UNIT: ReadonlyMap<string, ColumnKind> = new Map([
  ...words('km/h, kmh, kph, mph, m/s').map(word => [word, 'speed'] as const),
  ...words('seconds, sekunden, milliseconds').map(word => [word, 'time'] as const),
]);

/** Words that tell one wheel from another; those of an axle tell whether it is driven. */
const PLACES: { readonly [place: string]: readonly string[] } = {
  front: words('front, fl, fr, lf, rf, vorn, vorne, vl, vr, avant, avg, avd'),
  rear: words('rear, rl, rr, lr, hinten, hl, hr, arriere, arg, ard'),
  side: words('left, right, links, rechts, gauche, droite, driven'),
};

/** The name of a column of wheel speed without the words for the place of the wheel. */
export function withoutPlace(name: string): string {
  const all = Object.values(PLACES).flat();
  return name
    .split(' ')
    .filter(word => !all.includes(word))
    .join(' ');
}

/** The axle that the name of a column tells; null where it tells none. */
export function axleIn(name: string): 'front' | 'rear' | null {
  const has = (axle: 'front' | 'rear'): boolean =>
    name.split(/[^\p{L}]+/u).some(word => PLACES[axle]?.includes(word) === true);
  return has('front') ? 'front' : has('rear') ? 'rear' : null;
}
