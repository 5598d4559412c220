using DeckLife.Surveys;

namespace DeckLife.Population;

/// <summary>What the deck's surveys found, and how many independent readings they are worth.</summary>
/// <remarks>
/// Sounding and half-cell see one state of a place. Where sounding areas have corners, nodes on them are left out of the half-cell
/// part: there the state is already known, and their readings would be the same evidence twice.
/// </remarks>
public sealed record SurveyEvidence
{
    /// <summary>Fewest half-cell nodes that are used.</summary>
    public const int FewestNodes = 20;

    /// <summary>Share of the deck that sounding found hollow or spalled; absent without a sounding survey.</summary>
    public double? UnsoundShare { get; init; }

    /// <summary>Share of the deck that is patched.</summary>
    public double PatchedShare { get; init; }

    /// <summary>Number of independent places that the sounding is worth.</summary>
    public double SoundingPlaces { get; init; }

    /// <summary>Potentials at nodes that count [mV CSE].</summary>
    public IReadOnlyList<double> PotentialsMv { get; init; } = [];

    /// <summary>Number of independent readings that the nodes are worth.</summary>
    public double IndependentNodes { get; init; }

    /// <summary>Whether the nodes were kept apart from what sounding found, place by place.</summary>
    public bool NodesAreOnSoundPlaces { get; init; }

    /// <summary>Correlation length that was used [m].</summary>
    public double CorrelationLengthM { get; init; }

    /// <summary>Whether there is anything to learn from.</summary>
    public bool IsEmpty => UnsoundShare is null && PotentialsMv.Count == 0;

    /// <summary>Gathers the evidence of a deck.</summary>
    /// <param name="deck">The deck.</param>
    public static SurveyEvidence Of(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var bare = deck.BarType == BarType.Bare;
        var x = deck.HalfCells.Select(h => h.X).ToArray();
        var y = deck.HalfCells.Select(h => h.Y).ToArray();
        var all = deck.HalfCells.Select(h => h.PotentialMvCse).ToArray();
        var length =
            deck.Surveys.CorrelationLengthM
            ?? (all.Length > 0 ? SpatialReadings.CorrelationLength(x, y, all) : null)
            ?? 1.5;
        var placed = deck.Soundings.Length > 0 && deck.Soundings.All(s => s.Corners.Length >= 3);
        var used = Enumerable
            .Range(0, bare && all.Length >= FewestNodes ? all.Length : 0)
            .Where(i => !placed || !deck.Soundings.Any(s => Contains(s, x[i], y[i])))
            .ToArray();
        double Share(Func<SoundingArea, bool> which) =>
            Math.Clamp(deck.Soundings.Where(which).Sum(s => s.AreaM2) / deck.AreaM2, 0, 1);
        return new()
        {
            UnsoundShare = deck.Soundings.IsEmpty
                ? null
                : Share(s => s.Finding != SoundingFinding.Patched),
            PatchedShare = Share(s => s.Finding == SoundingFinding.Patched),
            SoundingPlaces = SpatialReadings.EffectiveNumber(deck.AreaM2, length),
            PotentialsMv = [.. used.Select(i => all[i])],
            IndependentNodes = SpatialReadings.EffectiveNumber(
                [.. used.Select(i => x[i])],
                [.. used.Select(i => y[i])],
                length
            ),
            NodesAreOnSoundPlaces = placed,
            CorrelationLengthM = length,
        };
    }

    // Ray casting; a node on an edge counts as on the area or beside it by rounding, which decides nothing here.
    private static bool Contains(SoundingArea area, double x, double y)
    {
        var inside = false;
        for (int i = 0, j = area.Corners.Length - 1; i < area.Corners.Length; j = i++)
        {
            var (xi, yi) = area.Corners[i];
            var (xj, yj) = area.Corners[j];
            if (yi > y != yj > y && x < (xj - xi) * (y - yi) / (yj - yi) + xi)
            {
                inside = !inside;
            }
        }

        return inside;
    }
}
