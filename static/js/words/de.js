// Made by `manage.py gather_words`.
export const WORDS = {
  "Marks": "Zeichen",
  "“{word}” is no point. Write x and y in pixels with a comma between them and a space between points, such as 12.5,40 80,41.": "„{word!s}“ ist kein Punkt. Schreiben Sie x und y in Pixeln mit einem Komma dazwischen und einem Leerzeichen zwischen den Punkten, etwa 12.5,40 80,41."
};
