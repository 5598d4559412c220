using System.Collections.Immutable;

namespace DeckLife.Decisions;

/// <summary>One thing that is not known, with its value in every draw.</summary>
/// <param name="Name">What it is, with its unit.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Values">One value a draw.</param>
public sealed record DrawColumn(string Name, InputSource Source, ImmutableArray<double> Values);
