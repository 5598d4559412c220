using System.Globalization;
using DeckLife.Decisions;
using static System.FormattableString;

namespace DeckLife.Data.Projection;

/// <summary>Writes a decision's analysis for reading at the terminal.</summary>
public static class DecisionText
{
    private const int DriversShown = 5;
    private const double LeastShown = 0.005;

    /// <summary>Writes the analysis.</summary>
    /// <param name="decision">The analysis.</param>
    /// <param name="output">Where to.</param>
    public static void Write(DecisionAnalysis decision, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(decision);
        ArgumentNullException.ThrowIfNull(output);
        if (decision.Drivers is { } drivers)
        {
            Line(output, $"");
            Line(
                output,
                $"{drivers.Lead} against {drivers.Next}: {drivers.MeanDifference:#,0} (±{drivers.ErrorOfDifference:#,0}) less in the mean, the cheaper of the two with probability {drivers.LeadProbability:0.00}; decided by"
            );
            foreach (
                var driver in drivers.Drivers.Where(d => d.Share >= LeastShown).Take(DriversShown)
            )
            {
                Line(
                    output,
                    $"  {driver.Input}: {100 * driver.Share:0} % (±{100 * driver.ErrorOfShare:0}) of the difference's variance; the lead holds with probability {driver.LeadsWhenLow:0.00} in its lowest third, {driver.LeadsWhenHigh:0.00} in its highest"
                );
            }
        }

        if (decision.Information is { } information)
        {
            Line(output, $"");
            Line(
                output,
                $"Before deciding, knowing everything would be worth {information.Perfect:#,0} (±{information.ErrorOfPerfect:#,0}) {information.Currency}; now {information.ChosenNow} would be chosen"
            );
            foreach (var value in information.Offers)
            {
                var net = value.Net is { } n
                    ? Invariant($", {n:#,0} after its price of {value.Offer.Price:#,0}")
                    : "";
                Line(
                    output,
                    $"  {DecisionPhrases.Of(value.Offer)}: {value.Value:#,0} (±{value.ErrorOfValue:#,0}){net}; changes the decision with probability {value.ChangeProbability:0.00}"
                );
            }
        }

        foreach (var wait in decision.Waits)
        {
            Line(output, $"  {DecisionPhrases.Of(wait)}");
        }

        if (decision.Models is { } models)
        {
            WriteModels(models, output);
        }

        if (!decision.Budgets.IsEmpty)
        {
            Line(output, $"");
            Line(
                output,
                $"What the bands are made of (share of the variance that each source explains by itself, with its standard error):"
            );
            foreach (var budget in decision.Budgets)
            {
                var shares = budget
                    .Shares.Where(s => s.Share >= LeastShown)
                    .Select(s =>
                        Invariant(
                            $"{DecisionPhrases.Of(s.Source)} {100 * s.Share:0} % ± {100 * s.Error:0}"
                        )
                    );
                var points = budget.PointsShare is { } p
                    ? Invariant(
                        $"; numerical: points {100 * p:0.#} %, steps {100 * (budget.SolverShare ?? 0):0.##} %"
                    )
                    : "";
                Line(
                    output,
                    $"  {budget.Strategy}, {budget.Number}: {string.Join(", ", shares)}{points}; all together {100 * budget.Together:0} %; standard deviation {Amount(budget.StandardDeviation)} {budget.Unit}, Monte Carlo error of the mean {Amount(budget.MonteCarloError)}"
                );
            }
        }
    }

    private static void WriteModels(ModelEnsemble models, TextWriter output)
    {
        Line(output, $"");
        Line(
            output,
            $"Under other forms of the model (mean years, mean present value in thousands: {string.Join("; ", models.Strategies)}):"
        );
        foreach (var variant in models.Variants)
        {
            var numbers = variant.ExpectedYears.Select(
                (y, s) =>
                    Invariant($"{y:0.0}")
                    + (
                        variant.ExpectedPresentValues.IsEmpty
                            ? ""
                            : Invariant($" / {variant.ExpectedPresentValues[s] / 1000:#,0}")
                    )
            );
            Line(
                output,
                $"  {variant.Form}: {variant.Lead} leads{(variant.Lead == models.Variants[0].Lead ? "" : ", another than as given")}; {string.Join("; ", numbers)}"
            );
        }
    }

    // Years have decimals, money has none.
    private static string Amount(double value) =>
        Math.Abs(value) < 100 ? Invariant($"{value:0.##}") : Invariant($"{value:#,0}");

    private static void Line(TextWriter output, FormattableString text)
    {
        output.Write(text.ToString(CultureInfo.InvariantCulture));
        output.Write('\n');
    }
}
