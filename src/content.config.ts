import { defineCollection } from 'astro:content';
import { recordLoader } from './site/record-loader.ts';

export const collections = { records: defineCollection({ loader: recordLoader() }) };
