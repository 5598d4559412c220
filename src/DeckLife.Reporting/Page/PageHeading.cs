namespace DeckLife.Reporting.Page;

/// <summary>A heading that the table of contents lists.</summary>
/// <param name="Id">Where it is.</param>
/// <param name="Text">What it says.</param>
public sealed record PageHeading(string Id, string Text);
