using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Surveys;

namespace DeckLife.Mapping;

/// <summary>What the surveys saw on one cell of the plan, as a likelihood of the cell's severity.</summary>
/// <remarks>
/// Given the smooth severity f of the cell, places on it differ by local scatter with standard deviation τ: active Φ((f + a)/τ), damaged Φ((f + d)/τ),
/// a ≥ d. Sounding counts as one independent place a cell (found, or not), nodes as places that sounding left, as for the deck as a whole in
/// <see cref="SurveyLikelihood"/>.
/// </remarks>
internal sealed class PlaceEvidence
{
    private const int SubPlaces = 6;

    private readonly double[] passive;
    private readonly double[] active;
    private readonly bool isSounded;

    private PlaceEvidence(
        double unsound,
        double patched,
        bool isSounded,
        double[] passive,
        double[] active
    )
    {
        Unsound = unsound;
        Patched = patched;
        this.isSounded = isSounded;
        this.passive = passive;
        this.active = active;
    }

    /// <summary>Share of the cell found hollow or spalled.</summary>
    public double Unsound { get; }

    /// <summary>Share of the cell patched and not unsound.</summary>
    public double Patched { get; }

    /// <summary>Nodes that count.</summary>
    public int Nodes => passive.Length;

    /// <summary>Gathers what was seen, cell by cell.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="grid">The cells.</param>
    /// <param name="evidence">The evidence of the deck as a whole: what it leaves out is left out here.</param>
    public static PlaceEvidence[] Of(Deck deck, DeckGrid grid, SurveyEvidence evidence)
    {
        var model = deck.Surveys;
        var placed = evidence.NodesAreOnSoundPlaces;
        var nodes = Enumerable.Range(0, grid.Count).Select(_ => new List<double>()).ToArray();
        if (evidence.PotentialsMv.Count > 0)
        {
            foreach (
                var node in deck.HalfCells.Where(h =>
                    !placed || !deck.Soundings.Any(s => s.Contains(h.X, h.Y))
                )
            )
            {
                nodes[grid.CellAt(node.X, node.Y)].Add(node.PotentialMvCse);
            }
        }

        var cells = new PlaceEvidence[grid.Count];
        for (var c = 0; c < cells.Length; c++)
        {
            int unsound = 0,
                patched = 0;
            for (var s = 0; placed && s < SubPlaces * SubPlaces; s++)
            {
                var x = grid.X(c) + grid.StepX * ((s % SubPlaces + 0.5) / SubPlaces - 0.5);
                var y = grid.Y(c) + grid.StepY * ((s / SubPlaces + 0.5) / SubPlaces - 0.5);
                var here = deck.Soundings.Where(a => a.Contains(x, y)).ToArray();
                var isUnsound = here.Any(a => a.Finding != SoundingFinding.Patched);
                unsound += isUnsound ? 1 : 0;
                patched += here.Length > 0 && !isUnsound ? 1 : 0;
            }

            const double All = SubPlaces * SubPlaces;
            cells[c] = new(
                unsound / All,
                patched / All,
                placed,
                [
                    .. nodes[c]
                        .Select(v =>
                            SurveyLikelihood.Density(v, model.PassiveMeanMv, model.PassiveSdMv)
                        ),
                ],
                [
                    .. nodes[c]
                        .Select(v =>
                            SurveyLikelihood.Density(v, model.ActiveMeanMv, model.ActiveSdMv)
                        ),
                ]
            );
        }

        return cells;
    }

    /// <summary>Log-likelihood of a severity with its first two derivatives.</summary>
    /// <param name="f">Smooth severity of the cell.</param>
    /// <param name="limits">Where active and damaged begin.</param>
    /// <param name="seen">Share of what was ever damaged that is found or patched; 0 where nothing was sounded by place.</param>
    public (double Log, double First, double Second) Log(
        double f,
        in SeverityLimits limits,
        double seen
    )
    {
        if (!isSounded && passive.Length == 0)
        {
            return default;
        }

        var (a, a1, a2) = limits.Active(f);
        var (d, d1, d2) = limits.Damaged(f);
        var g = isSounded ? seen : 0;
        const double Least = 1e-300;
        double log = 0,
            first = 0,
            second = 0;
        void Add(double times, double value, double slope, double bend)
        {
            var v = Math.Max(value, Least);
            log += times * Math.Log(v);
            first += times * slope / v;
            second += times * (bend / v - slope * slope / (v * v));
        }

        var reported = Unsound + Patched;
        if (g > 0 && reported > 0)
        {
            Add(reported, d * g, d1 * g, d2 * g);
        }

        Add((isSounded ? 1 - reported : 0) - passive.Length, 1 - g * d, -g * d1, -g * d2);
        for (var j = 0; j < passive.Length; j++)
        {
            var more = active[j] - passive[j];
            Add(
                1,
                passive[j] + a * more - g * d * active[j],
                a1 * more - g * d1 * active[j],
                a2 * more - g * d2 * active[j]
            );
        }

        return (log, first, second);
    }

    /// <summary>Shares of the cell that are active and damaged, given its severity and what sounding found on it.</summary>
    public (double Active, double Damaged) Shares(double f, in SeverityLimits limits, double seen)
    {
        var rest = 1 - Unsound - Patched;
        var g = isSounded ? seen : 0;
        var a = limits.Active(f).Value;
        var d = limits.Damaged(f).Value;
        var left = Math.Max(1 - g * d, 1e-12);
        return (
            Unsound + rest * Math.Clamp((a - g * d) / left, 0, 1),
            Unsound + rest * Math.Clamp(d * (1 - g) / left, 0, 1)
        );
    }

    /// <summary>Share of the cell that will be damaged or patched when a larger share of such places is damaged.</summary>
    public double Later(double f, in SeverityLimits limits, double seen, double laterScore)
    {
        var g = isSounded ? seen : 0;
        var d = limits.Damaged(f).Value;
        var later = NormalQuantile.Probability((f + laterScore) / limits.LocalSd);
        return Unsound
            + Patched
            + (1 - Unsound - Patched)
                * Math.Clamp((later - g * d) / Math.Max(1 - g * d, 1e-12), 0, 1);
    }
}
