export * from './partial.ts';
export { harmonicProfile, type NotHeard, type Profile, twoToneProfile } from './profile.ts';
export { volumeDb, volumeText } from './volume.ts';
export { absentText, profileText } from './words.ts';
