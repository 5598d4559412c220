using System.Text.Json;
using DeckLife.Decisions;

namespace DeckLife.Data.Projection;

/// <summary>Writes a decision's analysis as JSON.</summary>
internal static class DecisionJson
{
    /// <summary>The name of a source in files.</summary>
    public static string NameOf(InputSource source) =>
        source switch
        {
            InputSource.Cores => "cores",
            InputSource.CoverSurvey => "cover-survey",
            InputSource.Threshold => "threshold",
            InputSource.Propagation => "propagation",
            InputSource.ModelForm => "model-form",
            InputSource.Materials => "materials",
            _ => "prices",
        };

    /// <summary>The name of something that could be learned, in files.</summary>
    public static string NameOf(InformationKind kind) =>
        kind switch
        {
            InformationKind.Cores => "cores",
            InformationKind.CoverReadings => "cover-readings",
            _ => "sounding",
        };

    /// <summary>Writes the analysis as a member of the projection's object.</summary>
    public static void Write(Utf8JsonWriter json, DecisionAnalysis decision)
    {
        json.WriteStartObject("decision");
        if (decision.Drivers is { } drivers)
        {
            WriteDrivers(json, drivers);
        }

        if (decision.Information is { } information)
        {
            WriteInformation(json, information);
        }

        if (!decision.Waits.IsEmpty)
        {
            WriteWaits(json, decision);
        }

        WriteBudgets(json, decision);
        if (decision.Models is { } models)
        {
            WriteModels(json, models);
        }

        json.WriteEndObject();
    }

    private static void WriteDrivers(Utf8JsonWriter json, RankDrivers drivers)
    {
        json.WriteStartObject("ranking");
        json.WriteString("lead", drivers.Lead);
        json.WriteString("next", drivers.Next);
        json.WriteNumber("meanDifference", drivers.MeanDifference);
        json.WriteNumber("monteCarloError", drivers.ErrorOfDifference);
        json.WriteNumber("leadProbability", drivers.LeadProbability);
        json.WriteStartArray("drivers");
        foreach (var driver in drivers.Drivers)
        {
            json.WriteStartObject();
            json.WriteString("input", driver.Input);
            json.WriteString("source", NameOf(driver.Source));
            json.WriteNumber("share", driver.Share);
            json.WriteNumber("monteCarloError", driver.ErrorOfShare);
            json.WriteNumber("leadProbabilityInLowestThird", driver.LeadsWhenLow);
            json.WriteNumber("leadProbabilityInHighestThird", driver.LeadsWhenHigh);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteInformation(Utf8JsonWriter json, ValueOfInformation information)
    {
        json.WriteStartObject("valueOfInformation");
        json.WriteString("chosenNow", information.ChosenNow);
        json.WriteString("currency", information.Currency);
        json.WriteNumber("perfect", information.Perfect);
        json.WriteNumber("monteCarloError", information.ErrorOfPerfect);
        json.WriteStartArray("offers");
        foreach (var value in information.Offers)
        {
            json.WriteStartObject();
            json.WriteString("kind", NameOf(value.Offer.Kind));
            json.WriteNumber("count", value.Offer.Count);
            json.WriteNumber("value", value.Value);
            json.WriteNumber("monteCarloError", value.ErrorOfValue);
            json.WriteNumber("changeProbability", value.ChangeProbability);
            json.WriteNumber("effectiveDraws", value.EffectiveDraws);
            if (value.Offer.Price is { } price)
            {
                json.WriteNumber("price", price);
                json.WriteNumber("net", value.Value - price);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteModels(Utf8JsonWriter json, ModelEnsemble models)
    {
        json.WriteStartArray("otherModels");
        foreach (var variant in models.Variants)
        {
            json.WriteStartObject();
            json.WriteString("form", variant.Form);
            json.WriteString("lead", variant.Lead);
            json.WriteStartArray("strategies");
            for (var s = 0; s < models.Strategies.Length; s++)
            {
                json.WriteStartObject();
                json.WriteString("name", models.Strategies[s]);
                json.WriteNumber("expectedYears_yr", variant.ExpectedYears[s]);
                if (!variant.ExpectedPresentValues.IsEmpty)
                {
                    json.WriteNumber("expectedPresentValue", variant.ExpectedPresentValues[s]);
                }

                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteWaits(Utf8JsonWriter json, DecisionAnalysis decision)
    {
        json.WriteStartArray("waiting");
        foreach (var wait in decision.Waits)
        {
            json.WriteStartObject();
            json.WriteNumber("wait_yr", wait.WaitYears);
            json.WriteString("chosenNow", wait.Now);
            if (wait.TriggerShare is { } trigger)
            {
                json.WriteString("then", wait.Later);
                json.WriteString(
                    "actsWhereDamagedShareIs",
                    wait.ActsFromShareUp ? "at least" : "at most"
                );
                json.WriteNumber("damagedShare", trigger);
            }

            json.WriteNumber("actProbability", wait.ActProbability);
            json.WriteNumber("endsBeforeProbability", wait.EndsBeforeProbability);
            json.WriteNumber("gain", wait.Gain);
            json.WriteNumber("monteCarloError", wait.ErrorOfGain);
            json.WriteStartObject("plainDelay");
            if (wait.DelayedTo.Length > 0)
            {
                json.WriteString("then", wait.DelayedTo);
            }

            json.WriteNumber("gain", wait.GainOfDelay);
            json.WriteNumber("monteCarloError", wait.ErrorOfGainOfDelay);
            json.WriteEndObject();
            json.WriteStartObject("information");
            json.WriteNumber("gain", wait.GainOfInformation);
            json.WriteNumber("monteCarloError", wait.ErrorOfGainOfInformation);
            json.WriteEndObject();
            json.WriteNumber("surveyPrice", wait.SurveyPrice);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteBudgets(Utf8JsonWriter json, DecisionAnalysis decision)
    {
        json.WriteStartArray("errorBudgets");
        foreach (var budget in decision.Budgets)
        {
            json.WriteStartObject();
            json.WriteString("strategy", budget.Strategy);
            json.WriteString("number", budget.Number);
            json.WriteString("unit", budget.Unit);
            json.WriteNumber("standardDeviation", budget.StandardDeviation);
            json.WriteNumber("monteCarloErrorOfMean", budget.MonteCarloError);
            json.WriteStartArray("shares");
            foreach (var share in budget.Shares)
            {
                json.WriteStartObject();
                json.WriteString("source", NameOf(share.Source));
                json.WriteNumber("share", share.Share);
                json.WriteNumber("monteCarloError", share.Error);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            if (budget.PointsShare is { } points)
            {
                json.WriteNumber("points", points);
            }

            if (budget.SolverShare is { } steps)
            {
                json.WriteNumber("solverSteps", steps);
            }

            json.WriteNumber("together", budget.Together);
            json.WriteNumber("notAttributed", budget.NotAttributed);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
