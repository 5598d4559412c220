namespace DeckLife.Notebooks;

/// <summary>A parameter that a notebook's parameters cell declares.</summary>
/// <param name="Name">Its name.</param>
/// <param name="TypeName">Its type as written: string, double, int, long, ulong or bool.</param>
/// <param name="Value">The source text of its value.</param>
public sealed record NotebookParameter(string Name, string TypeName, string Value);
