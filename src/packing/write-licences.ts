import { readFileSync, writeFileSync } from 'node:fs';
import { type LockedPackages, licenceList } from './licences.ts';

const lock = JSON.parse(readFileSync('package-lock.json', 'utf8')) as { packages: LockedPackages };
writeFileSync('shared/licences.md', licenceList(lock.packages));
