using DeckLife.Numerics.Sampling;
using DeckLife.Population;

namespace DeckLife.Mapping;

/// <summary>Normal scores of a draw's shares: of the active and the damaged at the survey, and of the damaged later.</summary>
internal sealed record DrawScores(double Active, double Damaged, double[] Later)
{
    // Numerical choices: a share from 256 points of low discrepancy is known far better than a cell is; a share of 0 or 1 has no score.
    private const int Points = 256;
    private const double Least = 1e-7;

    /// <summary>Finds the scores of a draw.</summary>
    public static DrawScores Of(
        KnowledgeDraw draw,
        ulong seed,
        ExposureClock clock,
        double[] laterYr
    )
    {
        var area = UntreatedArea.Of(
            draw.Population,
            AreaPoints.From(
                draw.Population,
                UnitPoints.ForArea(seed, draw.Index, Points, AreaPoints.Dimensions)
            ),
            clock
        );
        double Score(double share) =>
            NormalQuantile.At(Math.Clamp(share, Least, 1 - Least)) + draw.Discrepancy;
        var now = clock.ExposureAtSurveyYr;
        var active = Score(area.InitiatedFraction(now));
        var damaged = Math.Min(active, Score(area.DamagedFraction(now)));
        return new(
            active,
            damaged,
            [.. laterYr.Select(t => Math.Max(damaged, Score(area.DamagedFraction(now + t))))]
        );
    }
}
