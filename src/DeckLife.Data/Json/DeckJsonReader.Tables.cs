using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;

namespace DeckLife.Data.Json;

/// <summary>What deck.json says of how the tables are to be read.</summary>
internal sealed partial class DeckJsonReader
{
    private void ReadTables()
    {
        var chlorides = JsonValues.Object(root, "chlorides");
        draft.Extraction = Extraction(chlorides);
        draft.ChlorideFile = FileName(chlorides, "chlorides");
        draft.DepthsFrom = Surface(chlorides, "depthsFrom");
        if (JsonValues.Object(chlorides, "columns") is { } columns)
        {
            draft.ChlorideColumns = columns
                .Members.Where(m => m.Value.Kind == System.Text.Json.JsonValueKind.String)
                .GroupBy(m => m.Key.Trim().ToLowerInvariant(), StringComparer.Ordinal)
                .ToImmutableDictionary(
                    g => g.Key,
                    g => g.First().Value.Text.Trim(),
                    StringComparer.Ordinal
                );
        }

        if (chlorides?["detectionLimit"] is { Kind: System.Text.Json.JsonValueKind.String } limit)
        {
            if (
                QuantityText.TryParseStatedChloride(
                    limit.Text,
                    draft.Extraction,
                    out var stated,
                    out var problem
                )
            )
            {
                draft.DetectionLimit = stated;
            }
            else
            {
                problems.Add(
                    DiagnosticCatalogue.QuantityUnreadable,
                    limit.Line,
                    "chlorides.detectionLimit",
                    limit.Text,
                    "chlorides.detectionLimit",
                    problem
                );
            }
        }

        var cover = JsonValues.Object(root, "cover");
        draft.CoverFile = FileName(cover, "cover");
        draft.CoversFrom = Surface(cover, "measuredFrom");
        draft.SoundingFile = FileName(JsonValues.Object(root, "sounding"), "sounding");
        ReadHalfCell();
        ReadStartStation();
    }

    private void ReadHalfCell()
    {
        var item = JsonValues.Object(root, "halfCell");
        draft.HalfCellFile = FileName(item, "halfCell");
        draft.HalfCellReadings = JsonValues.Text(item, "readings");
        var name = JsonValues.Text(item, "electrode");
        double? offset = null;
        if (item?["electrodeAgainstCse"] is { Kind: System.Text.Json.JsonValueKind.String } against)
        {
            offset = values.Measure(
                against,
                "halfCell.electrodeAgainstCse",
                Dimension.Potential,
                -2000,
                2000,
                "a reference electrode lies within 2000 mV of CSE"
            );
            if (name is null)
            {
                problems.Add(
                    DiagnosticCatalogue.KeyMissing,
                    item.Line,
                    "halfCell.electrode",
                    null,
                    "halfCell.electrode",
                    "Its potential is given, but not which electrode it is.",
                    "\"Ag/AgCl\""
                );
                return;
            }
        }

        if (name is null)
        {
            return;
        }

        if (ReferenceElectrode.CopperSulfate.IsNamed(name))
        {
            draft.Electrode = ReferenceElectrode.CopperSulfate;
        }
        else if (offset is { } millivolts)
        {
            draft.Electrode = new ReferenceElectrode(name, millivolts);
        }
        else if (item!["electrodeAgainstCse"] is null)
        {
            problems.Add(
                DiagnosticCatalogue.KeyMissing,
                item["electrode"]!.Line,
                "halfCell.electrodeAgainstCse",
                name,
                "halfCell.electrodeAgainstCse",
                $"The potential of the electrode {name} against CSE depends on its filling and temperature: take it from its certificate.",
                "\"-77 mV\""
            );
        }
    }

    private void ReadStartStation()
    {
        if (root["startStation"] is not { Kind: System.Text.Json.JsonValueKind.String } value)
        {
            return;
        }

        var match = System.Text.RegularExpressions.Regex.Match(
            value.Text.Trim(),
            @"^(?<whole>\d{1,4})\+(?<rest>\d{2,3}(?<part>\.\d+)?)\s*(?<unit>ft|m|feet)$",
            System.Text.RegularExpressions.RegexOptions.CultureInvariant
        );
        if (!match.Success)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                value.Line,
                "startStation",
                value.Text,
                "startStation",
                $"'{value.Text}' is not a station with its unit: write, for example, \"12+50 ft\"."
            );
            return;
        }

        var rest = match.Groups["rest"].Value;
        var each = rest.Split('.')[0].Length == 2 ? 100 : 1000;
        var number =
            (
                each
                * double.Parse(
                    match.Groups["whole"].Value,
                    System.Globalization.CultureInfo.InvariantCulture
                )
            ) + double.Parse(rest, System.Globalization.CultureInfo.InvariantCulture);
        draft.StartStationM =
            number
            * (match.Groups["unit"].Value == "m" ? 1 : UnitFactors.MillimetresPerFoot / 1000);
    }

    private string? FileName(JsonItem? item, string path)
    {
        var name = JsonValues.Text(item, "file");
        if (name is null)
        {
            return null;
        }

        if (
            name.IndexOfAny(['/', '\\', ':', '\0']) < 0
            && !name.StartsWith('.')
            && name.Length is > 0 and < 200
        )
        {
            return name;
        }

        problems.Add(
            DiagnosticCatalogue.QuantityImpossible,
            item!["file"]!.Line,
            path + ".file",
            name,
            path + ".file",
            name,
            "a table is a file in the deck's own folder, named without a path"
        );
        return null;
    }

    private static MeasuringSurface? Surface(JsonItem? item, string key) =>
        JsonValues.Text(item, key) switch
        {
            "present-surface" => MeasuringSurface.PresentSurface,
            "deck-concrete" => MeasuringSurface.DeckConcrete,
            _ => null,
        };
}
