using DeckLife.Economics;

namespace DeckLife.ReferenceChecks;

/// <summary>The rows of interest tables, whole, and sums by the year-end and mid-year conventions.</summary>
public sealed class EconomicsTableCases : IReferenceCaseSet
{
    // Rate, years, P/F, P/A, A/P, F/P.
    private static readonly (double I, int N, double Pf, double Pa, double Ap, double Fp)[] Rows =
    [
        (0.03, 10, 0.7440939149, 8.530202837, 0.1172305066, 1.343916379),
        (0.03, 50, 0.2281070798, 25.72976401, 0.03886549444, 4.383906019),
        (0.04, 10, 0.6755641688, 8.110895779, 0.1232909443, 1.480244285),
        (0.04, 20, 0.4563869462, 13.59032634, 0.07358175033, 2.191123143),
        (0.04, 25, 0.3751168023, 15.62207994, 0.06401196279, 2.665836331),
        (0.04, 50, 0.1407126153, 21.48218462, 0.04655020045, 7.106683346),
        (0.04, 100, 0.01980004011, 24.504999, 0.04080800004, 50.50494818),
        (0.07, 10, 0.5083492921, 7.023581541, 0.1423775027, 1.967151357),
        (0.07, 30, 0.1313671172, 12.40904118, 0.08058640351, 7.612255043),
        (0.07, 50, 0.03394775942, 13.80074629, 0.07245984954, 29.45702506),
    ];

    private static readonly double[] MidYear =
    [
        .9667,
        .9035,
        .8444,
        .7891,
        .7375,
        .6893,
        .6442,
        .6020,
        .5626,
        .5258,
    ];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new(
            "economics/interest-table",
            "Every factor of ten rows of the interest tables",
            "real rate i, years n as named",
            "(1+i)^-n, (1-(1+i)^-n)/i and their inverses",
            HowGot.ComputedIndependently,
            "printed to 8 to 10 digits",
            [
                .. Rows.SelectMany(r =>
                {
                    var at = new DiscountRate(r.I);
                    var name = FormattableString.Invariant($"{100 * r.I:0} %, {r.N}");
                    return new ReferenceValue[]
                    {
                        new("P/F " + name, r.Pf, () => at.PresentWorth(r.N), 1e-9),
                        new("P/A " + name, r.Pa, () => at.PresentWorthOfAnnuity(r.N), 1e-9),
                        new("A/P " + name, r.Ap, () => at.AnnuityFromPresent(r.N), 1e-9),
                        new("F/P " + name, r.Fp, () => 1 / at.PresentWorth(r.N), 1e-9),
                    };
                }),
                new(
                    "P/G 4 %, 10",
                    33.88135228,
                    () => new DiscountRate(0.04).PresentWorthOfGradient(10),
                    1e-9
                ),
            ]
        );
        yield return new(
            "economics/mid-year",
            "Mid-year factors at 7 %",
            "years 0.5 to 9.5",
            "OMB Circular A-94 (1992), appendix B lists the same rounded (from memory); (1.07)^-(t-1/2)",
            HowGot.ComputedIndependently,
            "printed to 4 decimals",
            [
                .. MidYear.Select(
                    (f, t) =>
                        new ReferenceValue(
                            FormattableString.Invariant($"factor of year {t + 1}"),
                            f,
                            () => new DiscountRate(0.07).PresentWorth(t + 0.5),
                            5.001e-5,
                            IsAbsolute: true
                        )
                ),
            ]
        );
        yield return new(
            "economics/lives",
            "Lives against each other",
            "4 %: 100 lasting 20 yr; 60 lasting 20.9 yr; 100 renewed every 25 yr for ever",
            "Annual cost by A/P; perpetual renewal 1/(1-(1+i)^-n)",
            HowGot.ComputedIndependently,
            "printed to 12 digits",
            [
                new(
                    "annual, life 20 yr",
                    7.35817503286,
                    () => 100 * new DiscountRate(0.04).AnnuityFromPresent(20),
                    1e-11
                ),
                new(
                    "annual, life 20.9 yr, 60",
                    4.28998986142,
                    () => 60 * new DiscountRate(0.04).AnnuityFromPresent(20.9),
                    1e-11
                ),
                new(
                    "perpetual, life 25 yr",
                    160.029906966,
                    () => 100 * new DiscountRate(0.04).PresentWorthOfPerpetualRenewal(25),
                    1e-11
                ),
            ]
        );
    }
}
