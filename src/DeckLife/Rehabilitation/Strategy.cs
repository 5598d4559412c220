using System.Collections.Immutable;

namespace DeckLife.Rehabilitation;

/// <summary>A dated list of interventions under one name; an empty list does nothing.</summary>
public sealed record Strategy
{
    /// <summary>The strategy's name.</summary>
    public required string Name { get; init; }

    /// <summary>The interventions, ordered by date.</summary>
    public ImmutableArray<Intervention> Interventions { get; init; } = [];

    /// <inheritdoc/>
    public bool Equals(Strategy? other) =>
        other is not null
        && Name == other.Name
        && Interventions.AsSpan().SequenceEqual(other.Interventions.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, Interventions.Length);
}
