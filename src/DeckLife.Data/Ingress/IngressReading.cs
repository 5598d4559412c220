using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Ingress;

/// <summary>What reading a case gave: the case, or every problem that keeps it from being used.</summary>
/// <param name="Case">The case; absent where there are problems.</param>
/// <param name="Problems">All problems found.</param>
public sealed record IngressReading(IngressCase? Case, ImmutableArray<Diagnostic> Problems);
