using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Projection;

namespace DeckLife.Decisions;

/// <summary>Keeps the draws of a projection for what is asked of them afterwards.</summary>
internal static class DrawRecorder
{
    /// <summary>What was drawn.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="draws">One a draw of the projection.</param>
    public static IEnumerable<DrawColumn> Inputs(Deck deck, IReadOnlyList<KnowledgeDraw> draws)
    {
        var columns = new List<(string Name, InputSource Source, Func<KnowledgeDraw, double> Value)>
        {
            (
                "mean of ln surface chloride",
                InputSource.Cores,
                d => d.Population.MeanLnSurfaceChloride
            ),
            (
                "mean of ln diffusion coefficient",
                InputSource.Cores,
                d => d.Population.MeanLnDiffusionCoefficient
            ),
            (
                "spread of ln surface chloride",
                InputSource.Cores,
                d => d.Population.SdLnSurfaceChloride
            ),
            (
                "spread of ln diffusion coefficient",
                InputSource.Cores,
                d => d.Population.SdLnDiffusionCoefficient
            ),
            (
                "correlation of surface chloride and diffusion coefficient",
                InputSource.Cores,
                d => d.Population.Correlation
            ),
            ("background chloride [kg/m3]", InputSource.Cores, d => d.Population.BackgroundKgPerM3),
            ("median cover [mm]", InputSource.CoverSurvey, d => d.Population.Cover.Quantile(0.5)),
            ("spread of the cover [mm]", InputSource.CoverSurvey, d => Spread(d.Population.Cover)),
            (
                "median threshold [kg/m3]",
                InputSource.Threshold,
                d => d.Population.Threshold.Quantile(0.5)
            ),
            (
                "median time from initiation to damage, or what it follows from",
                InputSource.Propagation,
                d => d.Population.PropagationYr.Quantile(0.5)
            ),
            ("shift by the model's form", InputSource.ModelForm, d => d.Discrepancy),
        };
        for (var m = 0; m < deck.Materials.Length; m++)
        {
            var (index, material) = (m, deck.Materials[m]);
            if (
                material.DiffusionCoefficient.CoefficientOfVariation > 0
                && material.WithinDeckShare < 1
            )
            {
                columns.Add(
                    (
                        $"resistance of {material.Name}",
                        InputSource.Materials,
                        d => d.MaterialScores[index]
                    )
                );
            }

            if (material.ServiceLife is { CoefficientOfVariation: > 0 })
            {
                columns.Add(
                    (
                        $"own life of {material.Name}",
                        InputSource.Materials,
                        d => d.MaterialLifeUniforms[index]
                    )
                );
            }
        }

        return columns
            .Select(c => new DrawColumn(c.Name, c.Source, [.. draws.Select(c.Value)]))
            .Where(c => Varies(c.Values));
    }

    /// <summary>The share damaged in every whole year, year by year, then draw by draw.</summary>
    public static ImmutableArray<double> Damaged(StrategyDraw[] draws) =>
        draws.Length == 0
            ? []
            :
            [
                .. Enumerable
                    .Range(0, draws[0].Grid.Yearly.Length)
                    .SelectMany(y => draws.Select(d => d.Damaged[d.Grid.Yearly[y]])),
            ];

    /// <summary>Whether a column says anything: more than rounding apart.</summary>
    internal static bool Varies(ImmutableArray<double> values)
    {
        var (least, most) = (values.Min(), values.Max());
        return most - least > 1e-9 * Math.Max(Math.Abs(least), Math.Abs(most));
    }

    /// <summary>Half the distance between the points one standard deviation to either side.</summary>
    internal static double Spread(PointDistribution distribution) =>
        0.5
        * (distribution.Quantile(0.8413447460685429) - distribution.Quantile(0.15865525393145707));
}
