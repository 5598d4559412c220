using DeckLife.Numerics.Sampling;
using DeckLife.Population;

namespace DeckLife.ReferenceChecks;

/// <summary>Initiation over an area, and a probabilistic form of the full design equation.</summary>
public sealed class PopulationCases : IReferenceCaseSet
{
    private const double PoundsPerCubicYard = 0.593276421257783;
    private const int Points = 1 << 17;

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Area();
        yield return BetaQuantiles();
        yield return Design();
    }

    private static ReferenceCase Area()
    {
        var area = new Lazy<UntreatedArea>(ExampleArea);
        double Time(double share) => area.Value.TimeToInitiated(share, 1000) ?? -1;
        return new(
            "population/area",
            "Share of a deck's area initiated, spread against mean inputs",
            "C0 0; cover N(2.0, 0.4) in floored at 0.1; D, Cs, Ct lognormal with means 0.05 in2/yr, 12 and 2.5 lb/yd3, COV 0.6, 0.4, 0.4, independent",
            "F(t) = E[P(Ct <= Cs erfc(x / 2 sqrt(Dt)))], by quadrature",
            HowGot.ComputedIndependently,
            "printed to 3 decimals; 131 072 lattice points leave about 1e-4 of the time",
            [
                new("2 % initiated [yr]", 5.286, () => Time(0.02), 5e-4),
                new("10 % initiated [yr]", 10.256, () => Time(0.10), 3e-4),
                new("25 % initiated [yr]", 17.126, () => Time(0.25), 3e-4),
                new("50 % initiated [yr]", 30.507, () => Time(0.50), 3e-4),
                new("never [share of the area]", 0.001994, () => area.Value.NeverFraction(), 2e-3),
            ]
        );
    }

    private static ReferenceCase BetaQuantiles() =>
        new(
            "population/beta-threshold",
            "Four-parameter beta of a threshold: mean 0.6, deviation 0.15, on 0.2 to 2.0 % of binder",
            "5, 50 and 95 %",
            "fib Bulletin 34 (2006), annex B (parameters from memory); quantiles computed independently",
            HowGot.ComputedIndependently,
            "printed to 8 digits",
            [
                new("5 %", 0.37906566, () => Threshold.Quantile(0.05), 1e-6),
                new("50 %", 0.58588911, () => Threshold.Quantile(0.5), 1e-6),
                new("95 %", 0.86932766, () => Threshold.Quantile(0.95), 1e-6),
            ]
        );

    private static ReferenceCase Design()
    {
        (string Name, double Mean, double Sd, double[] Expected)[] binders =
        [
            ("CEM I", 0.30, 0.12, [0.215523, 0.676313, 0.802951]),
            ("with fly ash", 0.60, 0.15, [0.012809, 0.102114, 0.167127]),
            ("CEM III/B", 0.45, 0.20, [0.113574, 0.372869, 0.472435]),
        ];
        double[] years = [10, 50, 100];
        return new(
            "population/design-equation",
            "Probability of initiation by the full design equation, threshold integrated exactly",
            "cover LN(50, 8) mm; Cs LN(3.0, 1.0) % of binder; D N(10, 2)e-12 m2/s at 28 d; be N(4800, 700) K; T N(283, 5) K; threshold beta (0.6, 0.15) on 0.2 to 2.0; dx 0; C0 0; exponent beta by binder",
            "form of fib Bulletin 34 (2006) and ISO 16204 (memory), own example; 8 x 2^18 scrambled Sobol points",
            HowGot.ComputedIndependently,
            "reference has a standard error up to 1.4e-4; 131 072 points here about 1e-4",
            [
                .. binders.SelectMany(b =>
                    years.Select(
                        (t, i) =>
                            new ReferenceValue(
                                $"{b.Name}, {t} yr",
                                b.Expected[i],
                                () => DesignProbability(b.Mean, b.Sd, t),
                                // 5e-4 absolute on the smallest probability, less on the others
                                Math.Max(4e-4 / b.Expected[i], 1e-3)
                            )
                    )
                ),
            ]
        );
    }

    private static PointDistribution Threshold { get; } =
        PointDistribution.ScaledBeta(0.6, 0.15, 0.2, 2.0);

    private static double DesignProbability(double exponentMean, double exponentSd, double years)
    {
        var lattice = new RandomlyShiftedLattice(6, new RandomStream(1, "design equation"), true);
        var cover = PointDistribution.LognormalWithMean(50, 0.16);
        var surface = PointDistribution.LognormalWithMean(3, 1 / 3.0);
        var exponent = PointDistribution.ScaledBeta(exponentMean, exponentSd, 0, 1);
        var covers = new double[Points];
        var surfaces = new double[Points];
        var diffusions = new double[Points];
        for (var i = 0; i < Points; i++)
        {
            covers[i] = cover.Quantile(lattice.At(i, 0));
            surfaces[i] = surface.Quantile(lattice.At(i, 1));
            var migration = Math.Max(0, 10 + 2 * NormalQuantile.At(lattice.At(i, 2))) * 31.5576;
            var be = 4800 + 700 * NormalQuantile.At(lattice.At(i, 3));
            var temperature = 283 + 5 * NormalQuantile.At(lattice.At(i, 4));
            diffusions[i] =
                Math.Exp(be * (1 / 293.0 - 1 / temperature))
                * migration
                * Math.Pow(28 / 365.25 / years, exponent.Quantile(lattice.At(i, 5)));
        }

        return new UntreatedArea(
            new(covers, surfaces, diffusions, new double[Points], new double[Points]),
            Threshold,
            0,
            new(years)
        ).InitiatedFraction(years);
    }

    private static UntreatedArea ExampleArea()
    {
        var surface = PointDistribution.LognormalWithMean(12 * PoundsPerCubicYard, 0.4);
        var threshold = PointDistribution.LognormalWithMean(2.5 * PoundsPerCubicYard, 0.4);
        var population = new DeckPopulation
        {
            Cover = PointDistribution.NormalAboveZero(50.8, 10.16),
            CoverFloorMm = 2.54,
            MeanLnSurfaceChloride = Math.Log(surface.Quantile(0.5)),
            SdLnSurfaceChloride = Math.Sqrt(Math.Log(1.16)),
            MeanLnDiffusionCoefficient = Math.Log(0.05 * 645.16) - 0.5 * Math.Log(1.36),
            SdLnDiffusionCoefficient = Math.Sqrt(Math.Log(1.36)),
            Threshold = threshold,
            PropagationYr = PointDistribution.LognormalWithMean(5, 0),
        };
        var lattice = new RandomlyShiftedLattice(
            AreaPoints.Dimensions,
            new RandomStream(1, "example area"),
            true
        );
        var unit = new double[Points * AreaPoints.Dimensions];
        lattice.Fill(0, Points, unit);
        return new(AreaPoints.From(population, unit), threshold, 0, new(20));
    }
}
