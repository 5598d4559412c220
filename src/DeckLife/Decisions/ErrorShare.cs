namespace DeckLife.Decisions;

/// <summary>One source's part in a band.</summary>
/// <param name="Source">The source.</param>
/// <param name="Share">Share of the band's variance that the source explains by itself.</param>
/// <param name="Error">Standard error of that share.</param>
public sealed record ErrorShare(InputSource Source, double Share, double Error);
