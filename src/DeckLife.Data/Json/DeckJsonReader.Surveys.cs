using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Surveys;

namespace DeckLife.Data.Json;

/// <summary>The parts of deck.json that say what the surveys see, and where.</summary>
internal sealed partial class DeckJsonReader
{
    private const string PotentialRange = "a potential lies between -1000 and 300 mV CSE";
    private const string PotentialSpread = "a spread of potentials lies between 5 and 300 mV";

    private ImmutableArray<DeckZone> ReadZones()
    {
        var zones = ImmutableArray.CreateBuilder<DeckZone>();
        foreach (var (item, path) in JsonValues.Objects(root, "", "zones"))
        {
            double? At(string key) =>
                Length(item, path, key, -2e7, 2e7, "a place on a deck lies within 20 km") / 1000;
            if (
                JsonValues.Text(item, "name") is not { Length: > 0 } name
                || At("from") is not { } from
                || At("to") is not { } to
                || At("low") is not { } low
                || At("high") is not { } high
            )
            {
                continue;
            }

            if (to > from && high > low)
            {
                zones.Add(new(name, from, to, low, high));
                continue;
            }

            var (end, begin) = to > from ? ("high", "low") : ("to", "from");
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                item[end]!.Line,
                JsonCheck.Path(path, end),
                item[end]!.Text,
                JsonCheck.Path(path, end),
                item[end]!.Text,
                $"it must lie beyond '{begin}'"
            );
        }

        return zones.ToImmutable();
    }

    private SurveyModel ReadSurveyModel()
    {
        const string path = "surveyModel";
        var usual = new SurveyModel();
        if (JsonValues.Object(root, path) is not { } item)
        {
            return usual;
        }

        double? Potential(string key) => values.Number(item, path, key, -1000, 300, PotentialRange);
        double? Spread(string key) => values.Number(item, path, key, 5, 300, PotentialSpread);
        return usual with
        {
            Learn = JsonValues.Text(item, "learn") != "no",
            DetectionProbability =
                values.Fraction(
                    item,
                    path,
                    "detectionProbability",
                    0.1,
                    1,
                    "a probability of detection lies between 10 % and 100 %"
                ) ?? usual.DetectionProbability,
            SoundingAreaError =
                values.Fraction(
                    item,
                    path,
                    "soundingAreaError",
                    0,
                    1,
                    "a relative error of the marked area lies between 0 % and 100 %"
                ) ?? usual.SoundingAreaError,
            ModelDiscrepancySd =
                values.Number(
                    item,
                    path,
                    "modelDiscrepancy",
                    0,
                    2,
                    "the discrepancy of the model's form lies between 0 and 2"
                ) ?? usual.ModelDiscrepancySd,
            CorrelationLengthM =
                Length(
                    item,
                    path,
                    "correlationLength",
                    10,
                    1e6,
                    "it must lie between 10 mm and 1 km"
                ) / 1000,
            PassiveMeanMv = Potential("passiveMean_mv_cse") ?? usual.PassiveMeanMv,
            PassiveSdMv = Spread("passiveSd_mv") ?? usual.PassiveSdMv,
            ActiveMeanMv = Potential("activeMean_mv_cse") ?? usual.ActiveMeanMv,
            ActiveSdMv = Spread("activeSd_mv") ?? usual.ActiveSdMv,
        };
    }
}
