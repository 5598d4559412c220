using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Projection;
using DeckLife.Quantities;
using static System.FormattableString;

namespace DeckLife.Data.Projection;

/// <summary>Writes a projection for reading at the terminal: the answer first, then what it rests on.</summary>
public static class ProjectionText
{
    private static readonly double[] YearsShown = [0, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100];

    /// <summary>Writes the projection.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="build">Which build made it.</param>
    /// <param name="output">Where to.</param>
    /// <param name="units">The units of the reader; the canonical ones stand beside.</param>
    public static void Write(
        DeckProjection projection,
        BuildStamp build,
        TextWriter output,
        MessageUnits units
    )
    {
        ArgumentNullException.ThrowIfNull(projection);
        ArgumentNullException.ThrowIfNull(build);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(units);
        var deck = projection.Deck;
        Line(
            output,
            $"{deck.Name}: {projection.Strategies.Length} strategies over {deck.Horizon.Years:0.#} yr from {deck.SurveyYear}"
        );
        foreach (var caution in projection.Cautions)
        {
            Line(output, $"  ! {caution}");
        }

        WriteLeast(projection, output);
        if (projection.Hindcast is { } hindcast)
        {
            WriteHindcast(hindcast, output);
        }

        foreach (var strategy in projection.Strategies)
        {
            WriteStrategy(projection, strategy, output, units);
        }

        foreach (var refused in projection.Refused)
        {
            Line(output, $"");
            Line(output, $"{refused.Strategy.Name}: refused");
            Line(output, $"  {refused.Reason.Code} {refused.Reason.In(units)}");
        }

        Line(output, $"");
        foreach (var flag in projection.Flags)
        {
            Line(output, $"{flag.Code} {flag.In(units)}");
        }

        Line(output, $"Assumed:");
        foreach (var assumption in projection.Assumptions)
        {
            Line(output, $"  {assumption.Subject}: {assumption.In(units)} ({assumption.Source})");
        }

        var settings = projection.Settings;
        Line(
            output,
            $"decklife {build.Version}, commit {build.Commit ?? "not recorded"}; seed {settings.Seed}, {settings.Draws} draws of {settings.Points} points"
        );
        foreach (var input in deck.Inputs)
        {
            Line(output, $"  {input.Name} sha256 {input.Sha256}");
        }
    }

    private static void WriteStrategy(
        DeckProjection projection,
        StrategyProjection strategy,
        TextWriter output,
        MessageUnits units
    )
    {
        Line(output, $"");
        Line(output, $"{strategy.Strategy.Name}");
        WriteLife(output, strategy.ServiceLife, projection);
        if (strategy.OverlayEnd is { } overlay && strategy.DeckBeneath is { } beneath)
        {
            WriteLife(output, beneath, projection);
            WriteLife(output, overlay, projection);
        }

        if (strategy.DeckBeneathWithoutRim is { } rimless)
        {
            WriteLife(
                output,
                rimless with
                {
                    Criterion = rimless.Criterion + ", the rim around repairs not counted",
                },
                projection
            );
        }

        foreach (var work in strategy.Interventions)
        {
            var classes = string.Join(
                ", ",
                work.DepthClasses.Select(c =>
                    Invariant($"{units.Depth(c.DepthMm)} on {100 * c.Fraction:0.#} %")
                )
            );
            var waits =
                work.Probability < 1
                    ? Invariant($" (with probability {work.Probability:0.00})")
                    : "";
            var load = work.AddedDeadLoadKnPerM2 is { } added
                ? $", dead load {DeadLoad(added, units)} since the survey"
                : "";
            Line(
                output,
                $"  at {work.AtYr:0.##} yr{waits}: removal {classes} of the area; repaired {Percent(work.RepairedFraction)}; bars struck {Percent(work.StruckFraction)}; grade {units.Rise(work.GradeRiseMm)}{load}"
            );
            Line(
                output,
                $"    sounding before finds {Percent(work.SoundedFraction)}; bars exposed at once {Percent(work.ExposedAtOnceFraction)}; slab left during the work {units.Depth(work.LeastRemainingMm)} at the deepest planned removal, {units.Depth(work.RemainingUnderBarsMm)} under opened bars"
            );
        }

        if (strategy.Cost is { } cost)
        {
            var cheapest = strategy.CheapestProbability is { } p
                ? Invariant(
                    $"; cheapest with probability {p:0.00} (±{strategy.ErrorOfCheapestProbability:0.000})"
                )
                    + (
                        strategy.ExpectedRegret is { } regret
                            ? Invariant($", expected regret {regret:#,0}")
                            : ""
                    )
                : "";
            Line(
                output,
                $"  present value in {cost.Currency} of {cost.PriceYear}: mean {cost.MeanPresentValue:#,0}, median {cost.PresentValue.P50:#,0} (5 to 95 %: {cost.PresentValue.P05:#,0} to {cost.PresentValue.P95:#,0}), {cost.EquivalentAnnual:#,0} a year in the median{cheapest}"
            );
            if (cost.Users is { } users)
            {
                Line(
                    output,
                    $"    of it the agency {cost.Agency.P50:#,0} ({cost.Agency.P05:#,0} to {cost.Agency.P95:#,0}), users {users.P50:#,0} ({users.P05:#,0} to {users.P95:#,0})"
                );
            }

            WriteRates(output, strategy);
        }

        Line(output, $"  year    damaged area, % (5 to 95 %)      initiated, %");
        foreach (var point in strategy.Curve.Where(p => YearsShown.Contains(p.TimeYr)))
        {
            Line(
                output,
                $"  {point.TimeYr, 4:0}    {100 * point.Damaged.P50, 5:0.0} ({100 * point.Damaged.P05:0.0} to {100 * point.Damaged.P95:0.0})            {100 * point.Initiated.P50, 5:0.0}"
            );
        }

        foreach (var flag in strategy.Flags)
        {
            Line(output, $"  {flag.Code} {flag.In(units)}");
        }
    }

    private static void WriteLeast(DeckProjection projection, TextWriter output)
    {
        if (
            projection
                .Strategies.Where(s => s.ExpectedRegret is not null)
                .MinBy(s => s.ExpectedRegret) is
            { Cost: { } cost } least
        )
        {
            Line(output, $"");
            Line(
                output,
                $"Least mean present value of the {projection.Strategies.Length}: {least.Strategy.Name}, {cost.MeanPresentValue:#,0} {cost.Currency} of {cost.PriceYear}; the cheapest with probability {least.CheapestProbability:0.00}"
            );
        }
    }

    private static string DeadLoad(double knPerM2, MessageUnits units) =>
        units.LengthFactor == 1
            ? Invariant($"{knPerM2:+0.00;-0.00;0} kN/m2")
            : Invariant(
                $"{knPerM2 / UnitFactors.KilonewtonsPerSquareMetrePerPoundPerSquareFoot:+0.0;-0.0;0} lbf/ft2 ({knPerM2:+0.00;-0.00;0} kN/m2)"
            );

    private static void WriteRates(TextWriter output, StrategyProjection strategy)
    {
        if (strategy.CostByRate.IsEmpty)
        {
            return;
        }

        var rates = strategy.CostByRate.Select(c =>
        {
            var cheapest = c.CheapestProbability is { } p ? Invariant($", cheapest {p:0.00}") : "";
            return Invariant(
                $"{100 * c.RatePerYr:0.##} %: {c.PresentValue.P50:#,0} ({c.EquivalentAnnual:#,0} a year{cheapest})"
            );
        });
        Line(
            output,
            $"    at a real discount rate of {string.Join("; ", rates)}; year 0 is not discounted"
        );
    }

    private static void WriteHindcast(SurveyHindcast hindcast, TextWriter output)
    {
        var found = string.Join(
            "; ",
            new[]
            {
                hindcast.SurveyedUnsound is { } unsound
                    ? Invariant(
                        $"sounding {100 * unsound:0.0} % unsound and {100 * hindcast.SurveyedPatched:0.0} % patched ({hindcast.SoundingPlaces:0} independent places)"
                    )
                    : "",
                hindcast.CorrodingByHalfCell is { } corroding
                    ? Invariant(
                        $"half-cell {100 * corroding:0} % of {hindcast.Nodes} nodes corroding ({hindcast.IndependentNodes:0} independent)"
                    )
                    : "",
            }.Where(t => t.Length > 0)
        );
        Line(output, $"");
        Line(output, $"The deck's surveys: {found}");
        Line(
            output,
            $"  damaged or patched today, before learning {Percent(hindcast.CurveBefore[0].DamagedOrPatched)}, initiated {Percent(hindcast.CurveBefore[0].Initiated)}"
        );
        if (hindcast.CurveAfter is { } after)
        {
            Line(
                output,
                $"  after learning {Percent(after[0].DamagedOrPatched)}, initiated {Percent(after[0].Initiated)}"
            );
        }

        Line(
            output,
            $"  {hindcast.DrawsWeighed} draws weighed, effective number {hindcast.EffectiveSampleSize:0}, tail shape {hindcast.ParetoShape:0.00} (above 0.7 not to be trusted)"
        );
    }

    private static void WriteLife(TextWriter output, ServiceLife life, DeckProjection projection)
    {
        var beyond = Invariant($"beyond {projection.Deck.Horizon.Years:0.#} yr");
        string Years(double? value, double? error) =>
            value is { } years
                ? Invariant($"{years:0.0} yr") + (error is { } e ? Invariant($" (±{e:0.0})") : "")
                : beyond;
        Line(
            output,
            $"  {life.Criterion}: {Years(life.P50Yr, life.ErrorOfP50Yr)}; 5 % {Years(life.P05Yr, life.ErrorOfP05Yr)}, 95 % {Years(life.P95Yr, life.ErrorOfP95Yr)}; not within the horizon with probability {life.NotReachedProbability:0.00}"
        );
    }

    private static string Percent(PercentileBand band) =>
        Invariant($"{100 * band.P50:0.0} % ({100 * band.P05:0.0} to {100 * band.P95:0.0})");

    private static void Line(TextWriter output, FormattableString text)
    {
        output.Write(text.ToString(CultureInfo.InvariantCulture));
        output.Write('\n');
    }
}
