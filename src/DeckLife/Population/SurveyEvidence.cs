using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.SpatialStatistics;
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
    /// <remarks>Judgement: two normal distributions and their shares are told apart from the readings, with priors, and fewer would say what the priors say.</remarks>
    public const int FewestNodes = 20;

    // Judgement: near the size of a hollow area, and the usual spacing of half-cell readings (1.2 to 1.5 m). At half of it a sounding counts as four
    // times as many independent places, at twice of it as a quarter.
    private const double DefaultLengthM = 1.5;

    // Numerical choice: three blocks of the field's estimate, and cells of 1.1 m on a deck of 48 by 12 m, near the size of a hollow area.
    private const int SoundingCells = 480;

    // Judgement: fewer hollow cells make no pairs to speak of, and their clustering would be chance.
    private const int FewestUnsoundCells = 5;

    /// <summary>Share of the deck that sounding found hollow or spalled; absent without a sounding survey.</summary>
    public double? UnsoundShare { get; init; }

    /// <summary>Share of the deck that is patched.</summary>
    public double PatchedShare { get; init; }

    /// <summary>
    /// Number of independent places that the sounding is worth. Where its areas have corners, the survey is of the whole deck and only its own
    /// error counts (<see cref="SurveyModel.SoundingAreaError"/>); how far chance has moved this deck is then <see cref="FiniteAreaSd"/>.
    /// </summary>
    public double SoundingPlaces { get; init; }

    /// <summary>
    /// Standard deviation of the shift of the shares' normal score that comes from the deck being one finite area on which hollow places
    /// cluster; 0 where no sounded area has corners.
    /// </summary>
    public double FiniteAreaSd { get; init; }

    /// <summary>Potentials at nodes that count [mV CSE].</summary>
    public IReadOnlyList<double> PotentialsMv { get; init; } = [];

    /// <summary>Number of independent readings that the nodes are worth.</summary>
    public double IndependentNodes { get; init; }

    /// <summary>Whether the nodes were kept apart from what sounding found, place by place.</summary>
    public bool NodesAreOnSoundPlaces { get; init; }

    /// <summary>Correlation length that was used [m].</summary>
    public double CorrelationLengthM { get; init; }

    /// <summary>How the potentials go together over the deck, all nodes taken; absent where there are too few.</summary>
    public ExponentialFieldEstimate? Potentials { get; init; }

    /// <summary>How unsound places go together over the deck; absent without sounded areas with corners.</summary>
    public ExponentialFieldEstimate? UnsoundField { get; init; }

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
        var stated = deck.Surveys.CorrelationLengthM;
        var potentials = ExponentialField.Estimate(x, y, all, deck.Analysis.Threads ?? 0);
        var placed = deck.Soundings.Length > 0 && deck.Soundings.All(s => s.Corners.Length >= 3);
        var used = Enumerable
            .Range(0, bare && all.Length >= FewestNodes ? all.Length : 0)
            .Where(i => !placed || !deck.Soundings.Any(s => s.Contains(x[i], y[i])))
            .ToArray();
        var unsound = placed && stated is null ? FieldOfUnsound(deck) : null;
        double[] usedX = [.. used.Select(i => x[i])],
            usedY = [.. used.Select(i => y[i])];
        // Where the readings show no correlation, their nugget takes it all, and each counts.
        var length = stated ?? potentials?.Length ?? DefaultLengthM;
        var nugget = stated is null && potentials is not null ? potentials.NuggetShare : 0;
        double Share(Func<SoundingArea, bool> which) =>
            Math.Clamp(deck.Soundings.Where(which).Sum(s => s.AreaM2) / deck.AreaM2, 0, 1);
        return new()
        {
            UnsoundShare = deck.Soundings.IsEmpty
                ? null
                : Share(s => s.Finding != SoundingFinding.Patched),
            PatchedShare = Share(s => s.Finding == SoundingFinding.Patched),
            SoundingPlaces = unsound is null
                ? SpatialReadings.EffectiveNumber(deck.AreaM2, stated ?? DefaultLengthM)
                : OwnErrorPlaces(deck),
            FiniteAreaSd = unsound is { } map
                ? ScoreSd(Share(s => s.Finding != SoundingFinding.Patched), map.Places)
                : 0,
            PotentialsMv = [.. used.Select(i => all[i])],
            IndependentNodes =
                unsound is not null && used.Length > 0 && DeckPlan.Of(deck) is { } plan
                    ? SpatialReadings.EffectiveNumber(usedX, usedY, length, nugget, plan)
                    : SpatialReadings.EffectiveNumber(usedX, usedY, length, nugget),
            NodesAreOnSoundPlaces = placed,
            CorrelationLengthM = length,
            Potentials = potentials,
            UnsoundField = unsound?.Field,
        };
    }

    // Sounding looks at the whole deck: its own map tells how hollow places cluster, and so how far chance can move their share.
    private static (ExponentialFieldEstimate Field, double Places)? FieldOfUnsound(Deck deck)
    {
        if (DeckPlan.Of(deck) is not { } plan)
        {
            return null;
        }

        var (x, y) = plan.Grid(SoundingCells, 0.3).Centres();
        var unsound = deck.Soundings.Where(s => s.Finding != SoundingFinding.Patched).ToArray();
        var found = x.Select((_, i) => unsound.Any(s => s.Contains(x[i], y[i])) ? 1.0 : 0)
            .ToArray();
        return
            found.Sum() >= FewestUnsoundCells
            && ExponentialField.Estimate(x, y, found, deck.Analysis.Threads ?? 0) is { } field
            ? (field, SpatialReadings.EffectiveNumber(x, y, field.Length, field.NuggetShare))
            : null;
    }

    // Each hollow area is found or missed as a whole, and the area marked has an error of its own.
    private static double OwnErrorPlaces(Deck deck)
    {
        var found = deck
            .Soundings.Where(s => s.Finding != SoundingFinding.Patched)
            .Select(s => s.AreaM2 / deck.AreaM2)
            .ToArray();
        var share = Math.Clamp(found.Sum(), 0, 1);
        var error = deck.Surveys.SoundingAreaError * share;
        var variance =
            error * error + (1 - deck.Surveys.DetectionProbability) * found.Sum(a => a * a);
        return Math.Max(1, share * (1 - share) / Math.Max(variance, 1e-12));
    }

    // Standard deviation of a share of a finite area, on the scale of its normal score.
    private static double ScoreSd(double share, double places)
    {
        var score = NormalQuantile.At(Math.Clamp(share, 1e-6, 1 - 1e-6));
        var density = Math.Exp(-0.5 * score * score) / Math.Sqrt(2 * Math.PI);
        return Math.Min(1, Math.Sqrt(share * (1 - share) / places) / density);
    }
}
