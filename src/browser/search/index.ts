import { startSearch } from './start.ts';

startSearch();
