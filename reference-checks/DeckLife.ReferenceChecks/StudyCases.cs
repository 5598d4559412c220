using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Data.Studies;
using DeckLife.Numerics.Distributions;
using DeckLife.Studies;

namespace DeckLife.ReferenceChecks;

/// <summary>Whole studies of a section against probabilities and shares computed by others.</summary>
public sealed class StudyCases : IReferenceCaseSet
{
    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Ageing("ordinary-portland", 0.30, 0.12, [0.215523, 0.676313, 0.802951]);
        yield return Ageing("fly-ash", 0.60, 0.15, [0.012809, 0.102114, 0.167127]);
        yield return Ageing("slag", 0.45, 0.20, [0.113574, 0.372869, 0.472435]);
        yield return Area();
        foreach (var output in (string[])["contentAtBar_30yr", "timeToInitiation_100yr"])
        {
            yield return Shares(output);
        }
    }

    private static ReferenceCase Ageing(
        string id,
        double mean,
        double deviation,
        double[] probabilities
    )
    {
        double[] ages = [10, 50, 100];
        const double Coefficient = 1e6 * 31_557_600;
        var results = new Lazy<StudyResult>(() =>
            Run(
                new()
                {
                    Name = id,
                    Seed = 1,
                    Section = new()
                    {
                        Ageing = SectionAgeing.Apparent,
                        ReferenceAgeYr = 0.0767,
                        ReferenceTemperatureC = 293 - 273.15,
                    },
                    Inputs =
                    [
                        new(
                            StudyVariable.Cover,
                            0,
                            LognormalDistribution.FromMeanAndStandardDeviation(50, 8)
                        ),
                        new(
                            StudyVariable.SurfaceChloride,
                            0,
                            LognormalDistribution.FromMeanAndStandardDeviation(3, 1)
                        ),
                        new(
                            StudyVariable.DiffusionCoefficient,
                            0,
                            new TruncatedDistribution(
                                new NormalDistribution(10e-12 * Coefficient, 2e-12 * Coefficient),
                                1e-14 * Coefficient,
                                double.PositiveInfinity
                            )
                        ),
                        new(
                            StudyVariable.ActivationTemperature,
                            0,
                            new NormalDistribution(4800, 700)
                        ),
                        new(StudyVariable.Temperature, 0, new NormalDistribution(283 - 273.15, 5)),
                        new(
                            StudyVariable.AgeingExponent,
                            0,
                            BetaDistribution.FromMeanAndStandardDeviation(mean, deviation, 0, 1)
                        ),
                        new(
                            StudyVariable.ChlorideThreshold,
                            0,
                            BetaDistribution.FromMeanAndStandardDeviation(0.6, 0.15, 0.2, 2.0)
                        ),
                    ],
                    Outputs =
                    [
                        .. ages.Select(a => new StudyOutput(StudyOutputKind.InitiatedBy, a)),
                    ],
                    Methods = [new ReliabilityMethod(1 << 16)],
                }
            )
        );
        return new(
            $"study/ageing-{id}",
            "Probability of initiation of an ageing mix (contents in % of cement)",
            FormattableString.Invariant(
                $"cover LN(50,8) mm; Cs LN(3,1); D N(10,2)e-12 m2/s at 0.0767 yr and 293 K; b N(4800,700) K; T N(283,5) K; exponent beta(mean {mean}, s.d. {deviation}; 0 to 1); threshold beta(0.6, 0.15; 0.2 to 2)"
            ),
            "form and parameters of fib Bulletin 34 (2006), Annex B2; probabilities by 8 x 2^18 scrambled Sobol points, standard error 1.4e-4",
            HowGot.ComputedIndependently,
            "absolute; importance sampling or plain draws with 65536 points: four standard errors",
            [
                .. ages.Select(
                    (age, i) =>
                        new ReferenceValue(
                            FormattableString.Invariant($"probability by {age} yr"),
                            probabilities[i],
                            () => results.Value.Results[i].Reliability!.Probability.Value,
                            4 * Math.Sqrt(probabilities[i] * (1 - probabilities[i]) / 65536),
                            IsAbsolute: true
                        )
                ),
            ]
        );
    }

    private static ReferenceCase Area()
    {
        double[] ages = [5.286, 10.256, 17.126, 30.507];
        double[] shares = [0.02, 0.10, 0.25, 0.50];
        var results = new Lazy<StudyResult>(() =>
            Run(
                new()
                {
                    Name = "area",
                    Seed = 1,
                    Section = new(),
                    Inputs =
                    [
                        new(
                            StudyVariable.Cover,
                            0,
                            new TruncatedDistribution(
                                new NormalDistribution(50.8, 10.16),
                                2.54,
                                double.PositiveInfinity
                            )
                        ),
                        Lognormal(StudyVariable.DiffusionCoefficient, 0.05 * 645.16, 0.6),
                        Lognormal(StudyVariable.SurfaceChloride, 12 * 0.593276421257783, 0.4),
                        Lognormal(StudyVariable.ChlorideThreshold, 2.5 * 0.593276421257783, 0.4),
                    ],
                    Outputs =
                    [
                        .. ages.Select(a => new StudyOutput(StudyOutputKind.InitiatedBy, a)),
                        new(StudyOutputKind.TimeToInitiation, 1000),
                    ],
                    Methods = [new MonteCarloMethod(400_000), new ReliabilityMethod(1 << 16)],
                }
            )
        );
        double Sampled(int i) =>
            results
                .Value.Results.Single(r =>
                    r.Reliability is not null && r.Output == results.Value.Study.Outputs[i]
                )
                .Reliability!.Probability.Value;
        DrawSummary Draws(int i) =>
            results
                .Value.Results.Single(r =>
                    r.Draws is not null && r.Output == results.Value.Study.Outputs[i]
                )
                .Draws!;
        return new(
            "study/area",
            "Share initiated by an age, lognormal means as stated",
            "cover N(2.0,0.4) in from 0.1 in; D, Cs, Ct lognormal with means 0.05 in2/yr, 12 and 2.5 lb/yd3, coefficients of variation 0.6, 0.4, 0.4",
            "one-dimensional quadratures, independent of this project",
            HowGot.ComputedIndependently,
            "four standard errors of 65536 weighted or 400000 plain draws; taking the means as medians would give 4.5, 8.8, 14.7, 26.2 yr",
            [
                .. ages.Select(
                    (age, i) =>
                        new ReferenceValue(
                            FormattableString.Invariant($"share by {age} yr"),
                            shares[i],
                            () => Sampled(i),
                            0.02
                        )
                ),
                new(
                    "10 % initiated [yr]",
                    10.256,
                    () => Draws(4).Percentiles.Single(p => p.Percent == 10).Value!.Value,
                    0.012
                ),
                new(
                    "50 % initiated [yr]",
                    30.507,
                    () => Draws(4).Percentiles.Single(p => p.Percent == 50).Value!.Value,
                    0.012
                ),
            ]
        );
    }

    private static ReferenceCase Shares(string output)
    {
        var rows = File.ReadAllLines(
            Path.Combine(Folder(), "peers", "studies", "sobol_openturns.csv")
        );
        var results = new Lazy<StudyResult>(() =>
        {
            var study = StudyFileReader
                .Read(
                    File.ReadAllText(
                        Path.Combine(Folder(), "..", "demo-data", "studies", "bare-deck.json")
                    )
                )
                .Study!;
            return Run(
                study with
                {
                    Outputs = [.. study.Outputs.Where(o => o.Name == output)],
                    Methods = [.. study.Methods.OfType<SobolMethod>()],
                }
            );
        });
        return new(
            $"study/shares-{output.Split('_')[0]}",
            $"Shares of variance of {output} in demo-data/studies/bare-deck.json",
            "4096 lattice points against 32768 points of the peer",
            $"{rows[0].TrimStart('#', ' ')} (reference-checks/peers/studies)",
            HowGot.ComputedIndependently,
            "absolute; half widths of both 95 % limits added",
            [
                .. rows.Skip(2)
                    .Select(r => r.Split(','))
                    .Where(r => r[0] == output)
                    .Select(r =>
                    {
                        var half = (Number(r[5]) - Number(r[4])) / 2;
                        return new ReferenceValue(
                            $"{r[1]}, {(r[2] == "first" ? "first order" : "total")}",
                            Number(r[3]),
                            () => Index(results.Value, r[1], r[2]),
                            Math.Max(0.002, half) + 0.02,
                            IsAbsolute: true
                        );
                    }),
            ]
        );
    }

    private static double Index(StudyResult result, string input, string kind)
    {
        var drawn = result.Study.Drawn;
        var group = result.Results[0].Sobol!.Groups.Single(g => drawn[g.Inputs[0]].Name == input);
        return kind == "first" ? group.FirstOrder.Value : group.Total.Value;
    }

    private static StudyInput Lognormal(StudyVariable variable, double mean, double variation) =>
        new(
            variable,
            0,
            LognormalDistribution.FromMeanAndStandardDeviation(mean, variation * mean)
        );

    private static StudyResult Run(StudyDefinition study)
    {
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        runner.Run(runner.Pieces, pieces);
        return runner.Finish(pieces);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Folder([CallerFilePath] string path = "") =>
        Path.Combine(Path.GetDirectoryName(path)!, "..");
}
