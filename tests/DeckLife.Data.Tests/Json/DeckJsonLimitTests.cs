using System.Collections.Immutable;
using System.Text;
using DeckLife.Data.Json;
using DeckLife.Data.Tables;
using DeckLife.Data.Tests.Folders;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Data.Tests.Json;

/// <summary>deck.json alone, without its tables: limits from both sides, and every value in canonical units.</summary>
public class DeckJsonLimitTests
{
    private const string Horizon = "\"horizon\": \"60 yr\"";
    private const string Seed = "\"analysis\": { \"seed\": 7, \"draws\": 400, \"points\": 256 }";
    private const string Diffusion = "\"ageingExponent\": 0.3";
    private const string Source = "\"source\": \"invented for this example\"\n    }";
    private const string Depth = "\"depth\": \"1 1/4 in\"";
    private const string Fixed = "\"rule\": \"fixed-depth\", " + Depth;
    private const string Price = "\"price\": \"4 per ft2\"";

    private static readonly string Text = File.ReadAllText(
        Path.Combine(DeckFolderTests.Inputs, "minimal-deck", "deck.json")
    );

    private static (DeckDraft Draft, ImmutableArray<Diagnostic> Problems) With(
        params string[] fromTo
    )
    {
        var text = Text;
        for (var n = 0; n < fromTo.Length; n += 2)
        {
            Assert.Contains(fromTo[n], text, StringComparison.Ordinal);
            text = text.Replace(fromTo[n], fromTo[n + 1], StringComparison.Ordinal);
        }

        var problems = new ProblemList("deck.json");
        var root = JsonTree.ReadObject(Encoding.UTF8.GetBytes(text), "deck.json", problems);
        Assert.True(root is not null, string.Join('\n', problems.ToImmutable()));
        return (DeckJsonReader.Read(root, problems), problems.ToImmutable());
    }

    private static Deck Deck(params string[] fromTo)
    {
        var (draft, problems) = With(fromTo);
        Assert.True(problems.IsEmpty, string.Join('\n', problems.Select(p => p.Text)));
        return draft.Deck!;
    }

    /// <summary>Adds a member of the top.</summary>
    private static string[] Top(string member) => [Horizon, $"{Horizon}, {member}"];

    // The limits are those that the messages state; {0} stands for the value.
    [Theory]
    [InlineData("\"4000 ft2\"", "\"{0}\"", "area", "1 m2|1000000 m2", "0.99 m2|1000001 m2")]
    [InlineData(
        "\"deckThickness\": \"8 in\"",
        "\"deckThickness\": \"{0}\"",
        "deckThickness",
        "50 mm|1500 mm",
        "49.9 mm|1501 mm"
    )]
    [InlineData("\"5/8 in\"", "\"{0}\"", "topBars.diameter", "4 mm|65 mm", "3.9 mm|65.1 mm")]
    [InlineData("\"30 yr\"", "\"{0}\"", "firstSalt.age", "1 d|200 yr", "0 d|200.1 yr")]
    [InlineData("\"60 d\"", "\"{0}\"", "firstSalt.concreteAge", "0 d|200 yr", "-1 d|200.1 yr")]
    [InlineData("\"60 yr\"", "\"{0}\"", "horizon", "1 yr|200 yr", "0.9 yr|200.1 yr")]
    [InlineData("\"3 %\"", "\"{0}\"", "discountRate", "-5 %|30 %", "-5.1 %|30.1 %")]
    [InlineData("\"10 %\"", "\"{0}\"", "damageLimit", "0.1 %|100 %", "0.09 %|100.1 %")]
    [InlineData("\"10 %\"", "{0}", "damageLimit", "0.001|1", "0.0009|1.01")]
    [InlineData("\"cov\": 0.3", "\"cov\": {0}", "threshold.content.cov", "0|3", "-0.1|3.1")]
    [InlineData(
        "\"mean\": \"1.6 lb/yd3\"",
        "\"mean\": \"{0}\"",
        "threshold.content.mean",
        "0.1 kg/m3|60 kg/m3",
        "60.1 kg/m3"
    )]
    [InlineData(
        "\"mean\": \"6 yr\"",
        "\"mean\": \"{0}\"",
        "propagation.period.mean",
        "1 d|200 yr",
        "-1 yr|200.1 yr"
    )]
    [InlineData(
        Seed,
        "\"analysis\": {{ \"seed\": {0} }}",
        "analysis.seed",
        "0|9223372036854775807",
        "-1|9223372036854775808|1.5|1e3"
    )]
    [InlineData(
        Seed,
        "\"analysis\": {{ \"draws\": {0} }}",
        "analysis.draws",
        "100|1000000",
        "99|1000001"
    )]
    [InlineData(
        Seed,
        "\"analysis\": {{ \"points\": {0} }}",
        "analysis.points",
        "16|1000000",
        "15|1000001"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"length\": \"{0}\"",
        "length",
        "0.5 m|20000 m",
        "0.49 m|20001 m"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"width\": \"{0}\"",
        "width",
        "0.5 m|20000 m",
        "0.49 m|20001 m"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"removalTolerance\": \"{0}\"",
        "removalTolerance",
        "0 mm|50 mm",
        "-1 mm|50.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"cover\": {{ \"stated\": \"{0}\" }}",
        "cover.stated",
        "1 mm|300 mm",
        "0.9 mm|300.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"concrete\": {{ \"density\": \"{0}\" }}",
        "concrete.density",
        "1000 kg/m3|3500 kg/m3",
        "999 kg/m3|3501 kg/m3"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"concrete\": {{ \"binderContent\": {{ \"assumed\": \"{0}\" }} }}",
        "concrete.binderContent.assumed",
        "100 kg/m3|1000 kg/m3",
        "99 kg/m3|1001 kg/m3"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"concrete\": {{ \"ageingExponent\": {0} }}",
        "concrete.ageingExponent",
        "0|0.99",
        "-0.01|1"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"existingOverlay\": {{ \"thickness\": \"{0}\", \"placed\": \"2011-06-15\" }}",
        "existingOverlay.thickness",
        "1 mm|300 mm",
        "0.9 mm|300.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"existingOverlay\": {{ \"thickness\": \"1 in\", \"placed\": \"2011-06-15\", \"removedBefore\": \"{0}\" }}",
        "existingOverlay.removedBefore",
        "0 mm|300 mm",
        "-1 mm|300.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"existingOverlay\": {{ \"thickness\": \"1 in\", \"placed\": \"{0}\" }}",
        "existingOverlay.placed",
        "2031-06-15",
        "2031-06-16"
    )]
    [InlineData(
        "{ \"age\": \"30 yr\",",
        "{{ \"date\": \"{0}\",",
        "firstSalt.date",
        "2031-06-14|1900-01-01",
        "2031-06-15|2031-06-16"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"halfCell\": {{ \"electrode\": \"SCE\", \"electrodeAgainstCse\": \"{0}\" }}",
        "halfCell.electrodeAgainstCse",
        "-2000 mV|2 V",
        "-2001 mV|2.1 V"
    )]
    [InlineData(
        "\"threshold\": {",
        "\"threshold\": {{ \"withinDeckShare\": {0},",
        "threshold.withinDeckShare",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        "\"propagation\": {",
        "\"propagation\": {{ \"withinDeckShare\": {0},",
        "propagation.withinDeckShare",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        "\"propagation\": {",
        "\"propagation\": {{ \"rateUnderOverlay\": {0},",
        "propagation.rateUnderOverlay",
        "0|10",
        "-0.1|10.1"
    )]
    [InlineData(
        "\"8 mm2/yr\"",
        "\"{0}\"",
        "materials[0].diffusion.coefficient.mean",
        "0.0001 mm2/yr|5000 mm2/yr",
        "0.00009 mm2/yr|5001 mm2/yr"
    )]
    [InlineData(
        Diffusion,
        "\"ageingExponent\": {0}",
        "materials[0].diffusion.ageingExponent",
        "0|0.99",
        "-0.01|1"
    )]
    [InlineData(
        "\"90 d\"",
        "\"{0}\"",
        "materials[0].diffusion.referenceAge",
        "1 d|200 yr",
        "0.1 d|200.1 yr"
    )]
    [InlineData(
        "\"28 d\"",
        "\"{0}\"",
        "materials[0].diffusion.ageAtExposure",
        "0.05 d|200 yr",
        "0.01 d|200.1 yr"
    )]
    [InlineData(
        "\"20 yr\"",
        "\"{0}\"",
        "materials[0].diffusion.constantAfter",
        "1 d|200 yr",
        "0.1 d|200.1 yr"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"withinDeckShare\": {0}",
        "materials[0].withinDeckShare",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"initialChloride\": \"{0}\"",
        "materials[0].initialChloride",
        "0 kg/m3|60 kg/m3",
        "60.1 kg/m3"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"serviceLife\": \"{0}\"",
        "materials[0].serviceLife",
        "0.5 yr|200 yr",
        "0.4 yr|200.1 yr"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"cracked\": {{ \"fraction\": {0}, \"diffusionFactor\": 5 }}",
        "materials[0].cracked.fraction",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"cracked\": {{ \"fraction\": 0.1, \"diffusionFactor\": {0} }}",
        "materials[0].cracked.diffusionFactor",
        "1|10000",
        "0.9|10001"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"leastThickness\": \"{0}\"",
        "materials[0].leastThickness",
        "1 mm|300 mm",
        "0.9 mm|300.1 mm"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"density\": \"{0}\"",
        "materials[0].density",
        "500 kg/m3|4000 kg/m3",
        "499 kg/m3|4001 kg/m3"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"waterCementitiousRatio\": {0}",
        "materials[0].waterCementitiousRatio",
        "0.15|1",
        "0.14|1.01"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"specification\": {{ \"source\": \"invented\", \"leastThickness\": \"{0}\" }}",
        "materials[0].specification.leastThickness",
        "1 mm|300 mm",
        "0.9 mm|300.1 mm"
    )]
    [InlineData(
        "\"name\": \"dense overlay\"",
        "\"name\": \"dense overlay\", \"specification\": {{ \"source\": \"invented\", \"greatestThickness\": \"{0}\" }}",
        "materials[0].specification.greatestThickness",
        "1 mm|300 mm",
        "0.9 mm|300.1 mm"
    )]
    [InlineData(
        "\"at\": \"1 yr\"",
        "\"at\": \"{0}\"",
        "strategies[1].interventions[0].at",
        "0 yr|60 yr",
        "-1 yr|60.1 yr"
    )]
    [InlineData(
        Depth,
        "\"depth\": \"{0}\"",
        "strategies[1].interventions[0].remove.depth",
        "0.1 mm|193.2 mm",
        "0.09 mm|193.3 mm"
    )]
    [InlineData(
        Fixed,
        "\"rule\": \"chloride-limit\", \"limit\": \"1 kg/m3\", \"minimumDepth\": \"{0}\", \"maximumDepth\": \"193.2 mm\"",
        "strategies[1].interventions[0].remove.minimumDepth",
        "0 mm|193.2 mm",
        "-1 mm|193.3 mm"
    )]
    [InlineData(
        Fixed,
        "\"rule\": \"chloride-limit\", \"limit\": \"1 kg/m3\", \"minimumDepth\": \"0 mm\", \"maximumDepth\": \"{0}\"",
        "strategies[1].interventions[0].remove.maximumDepth",
        "0.1 mm|193.2 mm",
        "0.09 mm|193.3 mm"
    )]
    [InlineData(
        Fixed,
        "\"rule\": \"half-cell-limit\", \"potential\": \"{0}\"",
        "strategies[1].interventions[0].remove.potential",
        "-800 mV CSE|0 mV CSE",
        "-801 mV CSE|1 mV CSE"
    )]
    [InlineData(
        "\"1 3/4 in\"",
        "\"{0}\"",
        "strategies[1].interventions[0].overlay.thickness",
        "1 mm|300 mm",
        "0.9 mm|300.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"halo\": {{ \"patchSide\": \"{0}\", \"width\": \"150 mm\", \"rateFactor\": 2, \"source\": \"invented\" }}",
        "halo.patchSide",
        "50 mm|10 m",
        "49 mm|10.1 m"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"halo\": {{ \"patchSide\": \"1 m\", \"width\": \"{0}\", \"rateFactor\": 2, \"source\": \"invented\" }}",
        "halo.width",
        "1 mm|3 m",
        "0.9 mm|3.1 m"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"halo\": {{ \"patchSide\": \"1 m\", \"width\": \"150 mm\", \"rateFactor\": {0}, \"source\": \"invented\" }}",
        "halo.rateFactor",
        "0.1|20",
        "0.09|20.1"
    )]
    [InlineData("\"year\": 2031", "\"year\": {0}", "prices.year", "1950|2200", "1949|2201")]
    [InlineData("\"USD\"", "\"{0}\"", "prices.currency", "CAD|EUR", "usd|US|USDX")]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"renewalLife\": \"{0}\"",
        "prices.renewalLife",
        "1 yr|300 yr",
        "0.9 yr|300.1 yr"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"growth\": \"{0}\"",
        "prices.growth",
        "-10 %|20 %",
        "-10.1 %|20.1 %"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"levelCov\": {0}",
        "prices.levelCov",
        "0|3",
        "-0.1|3.1"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"stages\": {0}",
        "prices.stages",
        "1|100",
        "0|101"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"interimRepairEvery\": \"{0}\"",
        "prices.interimRepairEvery",
        "1 yr|200 yr",
        "0.9 yr|200.1 yr"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"closure\": {{ \"perStage\": \"{0}\" }}",
        "prices.closure.perStage",
        "0 d|3 yr",
        "-1 d|3.1 yr"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"closure\": {{ \"areaPerDay\": \"{0}\" }}",
        "prices.closure.areaPerDay",
        "0.1 m2|100000 m2",
        "0.09 m2|100001 m2"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"quantityGrowth\": {{ \"mean\": {0}, \"cov\": 0.1 }}",
        "prices.quantityGrowth.mean",
        "0.2|10",
        "0.19|10.1"
    )]
    [InlineData(
        "\"year\": 2031",
        "\"year\": 2031, \"afterLimit\": [ {{ \"action\": \"renewal\", \"price\": \"400 per m2\", \"life\": \"{0}\" }} ]",
        "prices.afterLimit[0].life",
        "1 yr|200 yr",
        "0.9 yr|200.1 yr"
    )]
    [InlineData(
        "\"per\": \"deck-area\",",
        "\"per\": \"deck-area\", \"fromDepth\": \"{0}\",",
        "prices.items[0].fromDepth",
        "0 mm|1500 mm",
        "-1 mm|1501 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"at\": \"{0}\" }}",
        "depthSearch.at",
        "0 yr|60 yr",
        "-1 yr|60.1 yr"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"depthSearch\": {{ \"removal\": {{ \"from\": \"{0}\", \"to\": \"203.2 mm\", \"step\": \"203.2 mm\" }} }}",
        "depthSearch.removal.from",
        "0 mm|203.2 mm",
        "-1 mm|203.3 mm"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"depthSearch\": {{ \"thickness\": {{ \"from\": \"1 mm\", \"to\": \"{0}\", \"step\": \"100 mm\" }} }}",
        "depthSearch.thickness.to",
        "1 mm|300 mm",
        "0.9 mm|300.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"depthSearch\": {{ \"thickness\": {{ \"from\": \"1 mm\", \"to\": \"2 mm\", \"step\": \"{0}\" }} }}",
        "depthSearch.thickness.step",
        "0.1 mm|500 mm",
        "0.09 mm|500.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"limits\": {{ \"gradeRise\": \"{0}\" }} }}",
        "depthSearch.limits.gradeRise",
        "0 mm|500 mm",
        "-1 mm|500.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"limits\": {{ \"addedDeadLoad\": \"{0}\" }} }}",
        "depthSearch.limits.addedDeadLoad",
        "0 kN/m2|20 kN/m2",
        "-1 kN/m2|20.1 kN/m2"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"limits\": {{ \"barClearance\": \"{0}\" }} }}",
        "depthSearch.limits.barClearance",
        "0 mm|300 mm",
        "-1 mm|300.1 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"limits\": {{ \"barClearanceShare\": {0} }} }}",
        "depthSearch.limits.barClearanceShare",
        "0.5|0.999",
        "0.49|1"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"limits\": {{ \"budget\": {0} }} }}",
        "depthSearch.limits.budget",
        "0|1e12",
        "-1|1.1e12"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"limits\": {{ \"remainingThickness\": \"{0}\" }} }}",
        "depthSearch.limits.remainingThickness",
        "0 mm|203.2 mm",
        "-1 mm|203.3 mm"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"depthSearch\": {{ \"limits\": {{ \"barsExposed\": {0} }} }}",
        "depthSearch.limits.barsExposed",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"information\": [ {{ \"kind\": \"cores\", \"count\": {0} }} ]",
        "information[0].count",
        "1|10000",
        "0|10001"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"information\": [ {{ \"kind\": \"cover-readings\", \"count\": {0} }} ]",
        "information[0].count",
        "2|10000",
        "1|10001"
    )]
    [InlineData(
        Horizon,
        Horizon
            + ", \"information\": [ {{ \"kind\": \"sounding\", \"count\": 1, \"price\": {0} }} ]",
        "information[0].price",
        "0|1e12",
        "-1|1.1e12"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"surveyModel\": {{ \"detectionProbability\": {0} }}",
        "surveyModel.detectionProbability",
        "0.1|1",
        "0.09|1.1"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"surveyModel\": {{ \"soundingAreaError\": {0} }}",
        "surveyModel.soundingAreaError",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"surveyModel\": {{ \"modelDiscrepancy\": {0} }}",
        "surveyModel.modelDiscrepancy",
        "0|2",
        "-0.1|2.1"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"surveyModel\": {{ \"correlationLength\": \"{0}\" }}",
        "surveyModel.correlationLength",
        "10 mm|1000 m",
        "9 mm|1001 m"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"surveyModel\": {{ \"activeMean_mv_cse\": {0} }}",
        "surveyModel.activeMean_mv_cse",
        "-1000|300",
        "-1001|301"
    )]
    [InlineData(
        Horizon,
        Horizon + ", \"surveyModel\": {{ \"passiveSd_mv\": {0} }}",
        "surveyModel.passiveSd_mv",
        "5|300",
        "4.9|300.1"
    )]
    public void Read_ValueAtALimit_TakenAndBeyondItRefusedAtItsKey(
        string from,
        string to,
        string path,
        string taken,
        string refused
    )
    {
        string[] Change(string value) =>
            [from, string.Format(System.Globalization.CultureInfo.InvariantCulture, to, value)];

        foreach (var value in taken.Split('|'))
        {
            var (draft, problems) = With(Change(value));
            Assert.True(
                problems.All(p => p.Severity != Severity.Error),
                $"{value}: {string.Join('\n', problems.Select(p => p.Text))}"
            );
            Assert.NotNull(draft.Deck);
        }

        foreach (var value in refused.Split('|'))
        {
            var error = With(Change(value))
                .Problems.FirstOrDefault(p => p.Severity == Severity.Error);
            Assert.True(error is not null, $"{value} was taken");
            Assert.Equal(("DL1108", path), (error.Code, error.Column));
            Assert.InRange(error.Row ?? 0, 2, Text.Split('\n').Length);
        }
    }

    [Theory]
    [InlineData("per-deck-area", "deck-area", "14 per ft2", 14 / (0.3048 * 0.3048))]
    [InlineData("volume", "removed-volume", "450 / yd3", 450 / (0.9144 * 0.9144 * 0.9144))]
    [InlineData("volume", "placed-volume", "1,234.5 per m3", 1234.5)]
    [InlineData("area", "repaired-area", "10 USD per m2", 10)]
    [InlineData("area", "renewed-area", "10 usd per m2", 10)]
    [InlineData("area", "renewed-area", "$10 USD per m2", 10)]
    [InlineData("area", "removed-area", "10 per m2", 10)]
    [InlineData("area", "interim-repaired-area", "10 per m2", 10)]
    [InlineData("rise", "grade-rise", "254 per in", 10)]
    [InlineData("lump", "lump-sum", "5e4 each", 50000)]
    [InlineData("lump", "lump-sum", "50000 per intervention", 50000)]
    [InlineData("lump", "lump-sum", "50000 lump sum", 50000)]
    [InlineData("lump", "lump-sum", "50000 lump-sum", 50000)]
    [InlineData("stage", "stage", "500 each", 500)]
    [InlineData("stage", "stage", "500 per stage", 500)]
    [InlineData("day", "closure-day", "8000 per d", 8000)]
    [InlineData("year", "year", "2500 per yr", 2500)]
    [InlineData("most", "deck-area", "1e12 per m2", 1e12)]
    [InlineData("free", "deck-area", "0 per m2", 0)]
    public void Read_Price_PerCanonicalUnit(string item, string per, string price, double amount)
    {
        var deck = Deck(
            "\"per\": \"deck-area\", " + Price,
            $"\"per\": \"{per}\", \"price\": \"{price}\", \"includes\": \"{item}\""
        );

        Assert.Equal(amount, deck.Prices!.Items[0].Amount, 1e-9 * Math.Max(1, amount));
        Assert.Equal(
            per,
            string.Concat(
                    deck.Prices.Items[0]
                        .Basis.ToString()
                        .Select(c => char.IsUpper(c) ? "-" + char.ToLowerInvariant(c) : $"{c}")
                )
                .Trim('-')
        );
        Assert.Equal(
            (0, 0),
            (deck.Prices.Items[0].CoefficientOfVariation, deck.Prices.Items[0].FromDepthMm)
        );
        Assert.Equal(Payer.Agency, deck.Prices.Items[0].PaidBy);
    }

    [Theory]
    [InlineData("deck-area", "14", "a number and what it is per are needed")]
    [InlineData("deck-area", "14 per yd3", "14 per ft2")]
    [InlineData("deck-area", "14 each", "14 per ft2")]
    [InlineData("deck-area", "$14 per ft2", "the sign of many currencies")]
    [InlineData("deck-area", "14 $ per ft2", "the sign of many currencies")]
    [InlineData("deck-area", "14 EUR per ft2", "it is in EUR, but prices.currency is USD")]
    [InlineData("deck-area", "1.1e12 per m2", "between 0 and 1e12")]
    [InlineData("deck-area", "1,234 per m2", "1,234")]
    [InlineData("removed-volume", "14 per ft2", "450 per yd3")]
    [InlineData("grade-rise", "14 per ft2", "20000 per in")]
    [InlineData("closure-day", "14 per ft2", "per day")]
    [InlineData("closure-day", "14 each", "8000 per day")]
    [InlineData("year", "14 each", "per year")]
    [InlineData("stage", "14 per day", "per stage")]
    [InlineData("lump-sum", "14 per stage", "a lump sum is 'each'")]
    public void Read_PriceOfAnotherKind_ErrorSaysWhatIsMeant(string per, string price, string says)
    {
        var error = Assert.Single(
            With(
                "\"per\": \"deck-area\", " + Price,
                $"\"per\": \"{per}\", \"price\": \"{price}\""
            ).Problems,
            p => p.Severity == Severity.Error
        );

        Assert.Equal(("DL1107", "prices.items[0].price"), (error.Code, error.Column));
        Assert.Contains(says, error.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_WhatIsNotGiven_TheUsualAndSaidToBeAssumed()
    {
        var (draft, problems) = With(
            "\"discountRate\": \"3 %\",",
            "",
            ", \"concreteAge\": \"60 d\"",
            "",
            Seed,
            "\"$schema\": \"deck.schema.json\""
        );

        Assert.Empty(problems);
        var deck = draft.Deck!;
        Assert.Equal(
            (0, 0, 1),
            (deck.DiscountRate, deck.AgeingExponent, deck.CorrosionRateUnderOverlay)
        );
        Assert.Equal((0.5, 0), (deck.Threshold.WithinDeckShare, deck.Propagation.WithinDeckShare));
        Assert.Equal(new(), deck.Analysis);
        Assert.Equal(0, deck.ConcreteAgeAtFirstSalt.Years);
        Assert.Equal(0, deck.RemovalTolerance.Millimetres);
        Assert.Null(deck.StatedCoverMm);
        Assert.Null(deck.DepthSearch);
        Assert.Null(deck.Halo);
        Assert.Null(deck.Soffit);
        Assert.Empty(deck.InformationOffers);
        Assert.Equal(
            [
                "age of the concrete at its first salt",
                "ageing of the deck's concrete",
                "share of the threshold's spread within the deck",
                "chloride in new dense overlay",
                "discount rate",
            ],
            draft.Assumptions.Select(a => a.Subject)
        );
        Assert.All(draft.Assumptions, a => Assert.Equal("default of the deck folder", a.Source));
        var material = Assert.Single(deck.Materials);
        Assert.Equal(
            (0.0, 1.0, 0.0),
            (material.CrackedFraction, material.CrackedDiffusionFactor, material.WithinDeckShare)
        );
        Assert.Equal(0, material.InitialChloride.KilogramsPerCubicMetre);
        Assert.Equal(
            (1, 0, 0),
            (deck.Prices!.Stages, deck.Prices.ClosureDaysPerStage, deck.Prices.GrowthPerYr)
        );
    }

    [Fact]
    public void Read_WhatIsGiven_NothingIsAssumed()
    {
        var (draft, _) = With(
            "\"threshold\": {",
            "\"threshold\": { \"withinDeckShare\": 0.25,",
            "\"name\": \"dense overlay\"",
            "\"name\": \"dense overlay\", \"initialChloride\": \"0.1 kg/m3\", \"cracked\": { \"fraction\": 0.1, \"diffusionFactor\": 5 }",
            Horizon,
            Horizon
                + ", \"concrete\": { \"ageingExponent\": 0.2, \"density\": \"2400 kg/m3\", \"binderContent\": \"400 kg/m3\" }"
        );

        Assert.Empty(draft.Assumptions);
        var deck = draft.Deck!;
        Assert.Equal((2400.0, 400.0), (deck.ConcreteDensityKgPerM3, deck.BinderContentKgPerM3));
        Assert.Equal((0.2, 0.25), (deck.AgeingExponent, deck.Threshold.WithinDeckShare));
        var material = Assert.Single(deck.Materials);
        Assert.Equal((0.1, 5.0), (material.CrackedFraction, material.CrackedDiffusionFactor));
        Assert.Equal(0.1, material.InitialChloride.KilogramsPerCubicMetre, 12);
    }

    [Theory]
    [InlineData("cast-in-place", StructureKind.CastInPlace)]
    [InlineData("precast", StructureKind.Precast)]
    [InlineData("post-tensioned", StructureKind.PostTensioned)]
    public void Read_Structure_EveryWord(string word, StructureKind kind) =>
        Assert.Equal(kind, Deck("\"cast-in-place\"", $"\"{word}\"").Structure);

    [Theory]
    [InlineData("bare", BarType.Bare)]
    [InlineData("epoxy-coated", BarType.EpoxyCoated)]
    [InlineData("galvanised", BarType.Galvanised)]
    [InlineData("stainless", BarType.Stainless)]
    public void Read_BarType_EveryWord(string word, BarType type) =>
        Assert.Equal(type, Deck("\"type\": \"bare\"", $"\"type\": \"{word}\"").BarType);

    [Theory]
    [InlineData("normal", SpreadShape.Normal)]
    [InlineData("lognormal", SpreadShape.Lognormal)]
    public void Read_Distribution_EveryWord(string word, SpreadShape shape) =>
        Assert.Equal(
            shape,
            Deck(
                "\"distribution\": \"lognormal\"",
                $"\"distribution\": \"{word}\""
            ).Propagation.Period.Shape
        );

    // 2031-06-15 less 2001-06-15 is 10957 days.
    [Fact]
    public void Read_DateOfTheFirstSalt_AgeInYearsOf365AndAQuarterDays()
    {
        var (draft, problems) = With("\"age\": \"30 yr\"", "\"date\": \"2001-06-15\"");

        Assert.Empty(problems);
        Assert.Equal(10957 / 365.25, draft.Deck!.ExposureAge.Years, 12);
        Assert.Equal(new DateOnly(2001, 6, 15), draft.FirstSalt);
        Assert.Equal(new DateOnly(2031, 6, 15), draft.Deck.SurveyDate);
    }

    [Theory]
    [InlineData("{ \"concreteAge\": \"60 d\" }", "not neither")]
    [InlineData("{ \"age\": \"30 yr\", \"date\": \"2001-06-15\" }", "not both")]
    public void Read_FirstSaltByDateAndAgeOrNeither_Error(string salt, string says)
    {
        var error = Assert.Single(
            With("{ \"age\": \"30 yr\", \"concreteAge\": \"60 d\" }", salt).Problems
        );

        Assert.Equal(("DL1111", "firstSalt"), (error.Code, error.Column));
        Assert.Contains(says, error.Text, StringComparison.Ordinal);
    }

    // 4000 ft2 is 371.6 m2; half again as much, or a third less, is no rounding.
    [Theory]
    [InlineData("100 ft", "40 ft", false)]
    [InlineData("100 ft", "26.7 ft", false)]
    [InlineData("100 ft", "26.6 ft", true)]
    [InlineData("100 ft", "59.6 ft", false)]
    [InlineData("100 ft", "59.8 ft", true)]
    public void Read_AreaBesideLengthAndWidth_WarnedOfWhereTheyDisagree(
        string length,
        string width,
        bool warned
    ) =>
        Assert.Equal(
            warned,
            With(Top($"\"length\": \"{length}\", \"width\": \"{width}\""))
                .Problems.Any(p => p is { Code: "DL1122", Column: "area" })
        );

    [Theory]
    [InlineData("12+50 ft", 1250 * 0.3048)]
    [InlineData("12+50.5 feet", 1250.5 * 0.3048)]
    [InlineData("12+50 m", 1250)]
    [InlineData("1+250 m", 1250)]
    [InlineData("1+250.5 m", 1250.5)]
    public void Read_StartStation_Metres(string station, double metres) =>
        Assert.Equal(
            metres,
            With(Top($"\"startStation\": \"{station}\"")).Draft.StartStationM ?? 0,
            9
        );

    [Theory]
    [InlineData("12+50")]
    [InlineData("1250 ft")]
    [InlineData("12+5 ft")]
    [InlineData("12+50 in")]
    public void Read_StartStationThatIsNone_Error(string station) =>
        Assert.Equal(
            ("DL1107", "startStation"),
            With(Top($"\"startStation\": \"{station}\""))
                .Problems.Select(p => (p.Code, p.Column))
                .Single()
        );

    [Theory]
    [InlineData("\"electrode\": \"CSE\"", "CSE", 0.0)]
    [InlineData("\"electrode\": \"SCE\", \"electrodeAgainstCse\": \"-0.075 V\"", "SCE", -75.0)]
    [InlineData("\"electrode\": \"SCE\"", null, null)]
    [InlineData("\"electrodeAgainstCse\": \"-75 mV\"", null, null)]
    public void Read_Electrode_WithItsPotentialOrAskedFor(
        string members,
        string? name,
        double? millivolts
    )
    {
        var (draft, problems) = With(Top($"\"halfCell\": {{ {members} }}"));

        Assert.Equal(name is null ? ["DL1104"] : [], problems.Select(p => p.Code));
        Assert.Equal(
            (name, millivolts),
            (draft.Electrode?.Name, draft.Electrode?.MillivoltsAgainstCse)
        );
    }

    [Theory]
    [InlineData("half cells.csv", true)]
    [InlineData("../a.csv", false)]
    [InlineData("a/b.csv", false)]
    [InlineData("a\\\\b.csv", false)]
    [InlineData("c:a.csv", false)]
    [InlineData(".hidden", false)]
    public void Read_FileOfATable_InTheDecksOwnFolder(string name, bool taken)
    {
        foreach (var table in new[] { "chlorides", "cover", "halfCell", "sounding" })
        {
            var (draft, problems) =
                table == "chlorides"
                    ? With("\"chlorides\": {", $"\"chlorides\": {{ \"file\": \"{name}\",")
                    : With(Top($"\"{table}\": {{ \"file\": \"{name}\" }}"));
            var file = table switch
            {
                "chlorides" => draft.ChlorideFile,
                "cover" => draft.CoverFile,
                "halfCell" => draft.HalfCellFile,
                _ => draft.SoundingFile,
            };

            Assert.Equal(taken ? name : null, file);
            Assert.Equal(
                taken ? [] : [("DL1108", table + ".file")],
                problems.Select(p => (p.Code, p.Column!))
            );
        }
    }

    [Fact]
    public void Read_ReplacedColumnsAndLimit_ReachTheTable()
    {
        var (draft, problems) = With(
            "\"chlorides\": {",
            "\"chlorides\": { \"columns\": { \"Profile ID \": \"core\" }, \"detectionLimit\": \"50 ppm\","
        );

        Assert.Empty(problems);
        Assert.Equal("core", draft.ChlorideColumns["profile id"]);
        Assert.Equal(
            (50, "ppm"),
            (draft.DetectionLimit!.Value.Value, draft.DetectionLimit.Value.Unit.Name)
        );
        Assert.Equal(
            ("DL1107", "chlorides.detectionLimit"),
            With("\"chlorides\": {", "\"chlorides\": { \"detectionLimit\": \"50\",")
                .Problems.Select(p => (p.Code, p.Column))
                .Single()
        );
    }

    [Theory]
    [InlineData("\"exposure\": \"salted\", \"surfaceChloride\": \"2 kg/m3\"", null)]
    [InlineData("\"exposure\": \"salted\"", "DL1104")]
    [InlineData("\"exposure\": \"sealed\", \"surfaceChloride\": \"2 kg/m3\"", "DL1108")]
    [InlineData("\"exposure\": \"sealed\"", null)]
    public void Read_Soffit_SaltedWithItsContentSealedWithout(string members, string? code)
    {
        var (draft, problems) = With(Top($"\"soffit\": {{ {members}, \"source\": \"invented\" }}"));

        Assert.Equal(code, problems.SingleOrDefault()?.Code);
        if (code is null)
        {
            Assert.Equal(
                members.Contains("2 kg", StringComparison.Ordinal) ? 2.0 : null,
                draft.Deck!.Soffit!.SurfaceChloride?.Mean
            );
            Assert.Equal("invented", draft.Deck.Soffit.Source);
        }
        else
        {
            Assert.Equal("soffit.surfaceChloride", problems[0].Column);
        }
    }

    [Theory]
    [InlineData("fixed-depth", "depth", "limit minimumDepth maximumDepth potential")]
    [InlineData("chloride-limit", "limit minimumDepth maximumDepth", "depth potential")]
    [InlineData("unsound-areas", "", "depth limit minimumDepth maximumDepth potential")]
    [InlineData("half-cell-limit", "potential", "limit minimumDepth maximumDepth")]
    public void Read_RemovalRule_NeedsItsKeysAndNoOthers(string rule, string needed, string other)
    {
        var all = new Dictionary<string, string>
        {
            ["depth"] = "1 in",
            ["limit"] = "1 kg/m3",
            ["minimumDepth"] = "1 in",
            ["maximumDepth"] = "1 in",
            ["potential"] = "-350 mV CSE",
        };
        ImmutableArray<Diagnostic> Problems(IEnumerable<string> keys) =>
            With(
                Fixed,
                string.Join(
                    ", ",
                    keys.Select(k => $"\"{k}\": \"{all[k]}\"").Prepend($"\"rule\": \"{rule}\"")
                )
            ).Problems;
        const string at = "strategies[1].interventions[0].remove.";
        var own = needed.Split(' ', StringSplitOptions.RemoveEmptyEntries);

        Assert.Empty(Problems(own));
        Assert.All(
            own,
            k =>
                Assert.Equal(
                    ("DL1104", at + k),
                    Problems(own.Where(o => o != k)).Select(p => (p.Code, p.Column)).Single()
                )
        );
        Assert.All(
            other.Split(' '),
            k =>
                Assert.Equal(
                    ("DL1112", at + k),
                    Problems([.. own, k]).Select(p => (p.Code, p.Column)).Single()
                )
        );
    }

    [Fact]
    public void Read_MinimumDepthBelowTheMaximum_Error() =>
        Assert.Equal(
            "strategies[1].interventions[0].remove.minimumDepth",
            Assert
                .Single(
                    With(
                        Fixed,
                        "\"rule\": \"chloride-limit\", \"limit\": \"1 kg/m3\", \"minimumDepth\": \"26 mm\", \"maximumDepth\": \"25 mm\""
                    ).Problems
                )
                .Column
        );

    [Fact]
    public void Read_InterventionThatDoesNothing_Error() =>
        Assert.Equal(
            ("DL1111", "strategies[0].interventions[0]"),
            With(
                "{ \"name\": \"do nothing\" }",
                "{ \"name\": \"do nothing\", \"interventions\": [ { \"at\": \"2 yr\" } ] }"
            )
                .Problems.Select(p => (p.Code, p.Column))
                .Single()
        );

    [Fact]
    public void Read_InterventionsOutOfOrder_InTheOrderOfTheirDates() =>
        Assert.Equal(
            [2.0, 9],
            Deck(
                "{ \"name\": \"do nothing\" }",
                "{ \"name\": \"two\", \"interventions\": [ { \"at\": \"9 yr\", \"remove\": { \"rule\": \"unsound-areas\" } }, { \"at\": \"2 yr\", \"remove\": { \"rule\": \"unsound-areas\" }, \"damage\": \"repair\" } ] }"
            )
                .Strategies[0]
                .Interventions.Select(i => i.At.Years)
        );

    // From 1/4 in by 1/4 in to 1 in are four; the greatest is met where the last step is a fraction of a thousandth short.
    [Theory]
    [InlineData("0 mm", "30 mm", "10 mm", 4, 30)]
    [InlineData("0 mm", "35 mm", "10 mm", 4, 30)]
    [InlineData("0 mm", "39 mm", "1 mm", 40, 39)]
    [InlineData("10 mm", "10 mm", "1 mm", 1, 10)]
    [InlineData("0.1 in", "0.7 in", "0.1 in", 7, 17.78)]
    public void Read_Steps_FromTheLeastToTheGreatest(
        string from,
        string to,
        string step,
        int count,
        double last
    )
    {
        var depths = Deck(
            Top(
                $"\"depthSearch\": {{ \"removal\": {{ \"from\": \"{from}\", \"to\": \"{to}\", \"step\": \"{step}\" }} }}"
            )
        ).DepthSearch!.RemovalDepths;

        Assert.Equal(count, depths.Length);
        Assert.Equal(last, depths[^1].Millimetres, 9);
    }

    [Theory]
    [InlineData("0 mm", "40 mm", "1 mm")]
    [InlineData("10 mm", "9 mm", "1 mm")]
    public void Read_StepsThatAreNoneOrTooMany_Error(string from, string to, string step) =>
        Assert.Equal(
            ("DL1108", "depthSearch.removal"),
            With(
                Top(
                    $"\"depthSearch\": {{ \"removal\": {{ \"from\": \"{from}\", \"to\": \"{to}\", \"step\": \"{step}\" }} }}"
                )
            )
                .Problems.Select(p => (p.Code, p.Column))
                .Single()
        );

    [Theory]
    [InlineData("\"to\": \"1 m\", \"low\": \"0 m\", \"high\": \"1 m\"", "zones[0].to")]
    [InlineData("\"to\": \"2 m\", \"low\": \"1 m\", \"high\": \"1 m\"", "zones[0].high")]
    [InlineData("\"to\": \"2 m\", \"low\": \"1 m\", \"high\": \"20001 m\"", "zones[0].high")]
    public void Read_ZoneWithoutExtent_ErrorAtItsFarEnd(string limits, string column) =>
        Assert.Equal(
            ("DL1108", column),
            With(Top($"\"zones\": [ {{ \"name\": \"span\", \"from\": \"1 m\", {limits} }} ]"))
                .Problems.Select(p => (p.Code, p.Column))
                .Single()
        );

    [Theory]
    [InlineData(
        "\"sealer\": { \"passingFraction\": 0.5 }",
        "\"barrier\": { \"leakFraction\": 0.1 }",
        "DL1111"
    )]
    [InlineData("\"sealer\": { \"passingFraction\": 0.5 }", "", null)]
    [InlineData("\"barrier\": { \"leakFraction\": 0.1 }", "", null)]
    public void Read_ThinProtection_OneKindWithItsLife(string one, string two, string? code)
    {
        string Thin(params string[] members) =>
            "{ "
            + string.Join(", ", members.Where(m => m.Length > 0))
            + ", \"source\": \"invented\" },";
        const string at = "\"materials\": [";
        var (draft, problems) = With(
            at,
            at + Thin("\"name\": \"thin\"", one, two, "\"serviceLife\": \"5 yr\"")
        );
        Assert.Equal(code, problems.FirstOrDefault()?.Code);
        if (code is not null)
        {
            return;
        }

        var thin = Assert.Single(draft.Deck!.Protections);
        Assert.Equal(
            one.Contains("sealer", StringComparison.Ordinal)
                ? (ProtectionKind.Sealer, 0.5, 5.0)
                : (ProtectionKind.Barrier, 0.1, 5.0),
            (thin.Kind, thin.PassingFraction, thin.ServiceLife.Mean)
        );
        Assert.Equal(
            ("DL1104", "materials[0].serviceLife"),
            With(at, at + Thin("\"name\": \"thin\"", one))
                .Problems.Select(p => (p.Code, p.Column))
                .Single()
        );
        // A protection is no overlay, and an overlay no protection.
        Assert.Equal(
            ("DL1109", "strategies[1].interventions[0].overlay.material"),
            With(
                at,
                at + Thin("\"name\": \"thin\"", one, "\"serviceLife\": \"5 yr\""),
                "\"overlay\": { \"material\": \"dense overlay\"",
                "\"overlay\": { \"material\": \"thin\""
            )
                .Problems.Select(p => (p.Code, p.Column))
                .Single()
        );
    }
}
