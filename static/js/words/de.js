// Made by `manage.py gather_words`.
export const WORDS = {};
