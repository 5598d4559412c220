using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Projection;

/// <summary>A deck that can't be projected, with every reason at once.</summary>
public sealed class ProjectionRefusedException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="problems">The reasons.</param>
    public ProjectionRefusedException(ImmutableArray<Diagnostic> problems)
        : base(string.Join(" ", problems.Select(p => $"{p.Code}: {p.Text}"))) =>
        Problems = problems;

    /// <summary>The reasons.</summary>
    public ImmutableArray<Diagnostic> Problems { get; }
}
