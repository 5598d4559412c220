namespace DeckLife;

/// <summary>A value as an input file states it, so that a reviewer finds it there.</summary>
/// <param name="File">Name of the file within the deck's folder.</param>
/// <param name="Row">Line of the file, from 1; 0: the file as a whole.</param>
/// <param name="Path">Where in the file: keys joined by dots, items numbered from 0, such as <c>threshold.content.mean</c>; the name of a table for a whole table.</param>
/// <param name="Text">The value as it is written.</param>
public sealed record StatedField(string File, int Row, string Path, string Text);
