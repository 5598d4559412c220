using DeckLife.Economics;

namespace DeckLife.ReferenceChecks;

/// <summary>Factors and sums of engineering economy.</summary>
public sealed class EconomicsCases : IReferenceCaseSet
{
    private static readonly double[] A94Costs = [10, 20, 30, 30, 20, 10, 5, 5, 5, 5];
    private static readonly double[] A94Benefits = [0, 0, 5, 10, 30, 40, 40, 40, 40, 25];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new(
            "economics/factors",
            "Factors of the interest tables",
            "real rate i, years n as named",
            "The closed forms of engineering economy: (1+i)^-n, (1-(1+i)^-n)/i, their inverses; gradient by its sum",
            HowGot.ComputedIndependently,
            "printed to 10 digits",
            [
                new("P/F 3 %, 10", 0.7440939149, () => At(0.03).PresentWorth(10), 1e-9),
                new("P/F 4 %, 100", 0.01980004011, () => At(0.04).PresentWorth(100), 1e-9),
                new("P/F 7 %, 50", 0.03394775942, () => At(0.07).PresentWorth(50), 1e-9),
                new("P/A 3 %, 50", 25.72976401, () => At(0.03).PresentWorthOfAnnuity(50), 1e-9),
                new("P/A 4 %, 25", 15.62207994, () => At(0.04).PresentWorthOfAnnuity(25), 1e-9),
                new("A/P 4 %, 50", 0.04655020045, () => At(0.04).AnnuityFromPresent(50), 1e-9),
                new("A/P 7 %, 30", 0.08058640351, () => At(0.07).AnnuityFromPresent(30), 1e-9),
                new("P/G 4 %, 20", 111.5646855, () => At(0.04).PresentWorthOfGradient(20), 1e-9),
                new("P/G 7 %, 10", 27.71555171, () => At(0.07).PresentWorthOfGradient(10), 1e-9),
                new(
                    "real rate of 5 % nominal, 2 % inflation",
                    0.0294117647059,
                    () => DiscountRate.FromNominal(0.05, 0.02).PerYear,
                    1e-11
                ),
            ]
        );
        yield return new(
            "economics/year-zero",
            "Present value with year 0 undiscounted",
            "-500000, 200000, 300000, 200000 at years 0 to 3, 10 %",
            "Sum of amount/(1+i)^t, t from 0",
            HowGot.ComputedIndependently,
            "printed to the cent",
            [
                new(
                    "present value",
                    80015.03,
                    () =>
                        CashFlow.PresentValueFromYearZero(
                            [-500_000, 200_000, 300_000, 200_000],
                            At(0.10)
                        ),
                    1e-7
                ),
            ]
        );
        yield return new(
            "economics/a94",
            "The ten-year sample of OMB Circular A-94 (1992), appendix B, 7 %, end-of-year factors",
            "costs 10 20 30 30 20 10 5 5 5 5; benefits 0 0 5 10 30 40 40 40 40 25",
            "OMB Circular A-94 (1992), appendix B, printed 106.38 and 142.40 with rounded factors (memory); exact sums computed independently",
            HowGot.ComputedIndependently,
            "printed to 10 digits",
            [
                new("costs", 106.3987169, () => EndOfYear(A94Costs), 1e-9),
                new("benefits", 142.4101517, () => EndOfYear(A94Benefits), 1e-9),
            ]
        );
        yield return new(
            "economics/renewal",
            "A stream with renewals and a residual value, and lives against each other",
            "4 %: 1000 now, 300 at 15 and 30, -100 at 40; 100 lasting 25 or 20 yr",
            "Sum of amount/(1+i)^t; annual cost by A/P; perpetual renewal 1/(1-(1+i)^-n)",
            HowGot.ComputedIndependently,
            "printed to 12 digits",
            [
                new("present value", 1238.24604674, Stream, 1e-11),
                new(
                    "equivalent annual over 40 yr",
                    62.5605109235,
                    () => Stream() * At(0.04).AnnuityFromPresent(40),
                    1e-11
                ),
                new(
                    "annual, life 25 yr",
                    6.40119627865,
                    () => 100 * At(0.04).AnnuityFromPresent(25),
                    1e-11
                ),
                new(
                    "annual, life 25.9 yr, 120",
                    7.52476894848,
                    () => 120 * At(0.04).AnnuityFromPresent(25.9),
                    1e-11
                ),
                new(
                    "perpetual, life 20 yr",
                    183.954375822,
                    () => 100 * At(0.04).PresentWorthOfPerpetualRenewal(20),
                    1e-11
                ),
            ]
        );
    }

    private static DiscountRate At(double rate) => new(rate);

    private static double Stream() =>
        CashFlow.PresentValue(
            [new(0, 1000, "a"), new(15, 300, "b"), new(30, 300, "b"), new(40, -100, "c")],
            At(0.04)
        );

    private static double EndOfYear(double[] amounts) =>
        CashFlow.PresentValue(amounts.Select((a, t) => new Payment(t + 1, a, "year")), At(0.07));
}
