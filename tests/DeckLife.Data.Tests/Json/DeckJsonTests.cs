using System.Globalization;
using System.Text;
using DeckLife.Data.Folders;
using DeckLife.Data.Json;
using DeckLife.Data.Tests.Folders;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Data.Tests.Json;

public sealed class DeckJsonTests : IDisposable
{
    private static readonly string Minimal = Path.Combine(DeckFolderTests.Inputs, "minimal-deck");
    private static readonly string Text = File.ReadAllText(Path.Combine(Minimal, "deck.json"));

    private readonly string folder = Directory.CreateTempSubdirectory("decklife-json").FullName;

    public DeckJsonTests()
    {
        foreach (var file in Directory.GetFiles(Minimal))
        {
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        }
    }

    public void Dispose() => Directory.Delete(folder, true);

    private DeckFolderResult With(params string[] fromTo)
    {
        var text = Text;
        for (var n = 0; n < fromTo.Length; n += 2)
        {
            Assert.Contains(fromTo[n], text, StringComparison.Ordinal);
            text = text.Replace(fromTo[n], fromTo[n + 1], StringComparison.Ordinal);
        }

        File.WriteAllText(Path.Combine(folder, "deck.json"), text);
        return DeckFolder.Read(folder);
    }

    private static Diagnostic OnlyError(DeckFolderResult result, string code)
    {
        Assert.Null(result.Deck);
        var error = Assert.Single(result.Problems, p => p.Severity == Severity.Error);
        Assert.Equal(code, error.Code);
        Assert.Equal("deck.json", error.File);
        return error;
    }

    [Fact]
    public void Read_ZonesAndSurveyModel_ReachTheDeck()
    {
        var deck = With(
            "\"strategies\"",
            """
            "zones": [ { "name": "gutter line", "from": "0 ft", "to": "100 ft", "low": "-1 ft", "high": "4 ft" } ],
            "surveyModel": { "learn": "no", "detectionProbability": "80 %", "soundingAreaError": 0.15, "modelDiscrepancy": 0.3,
              "correlationLength": "5 ft", "passiveMean_mv_cse": -150, "passiveSd_mv": 60, "activeMean_mv_cse": -400, "activeSd_mv": 50 },
            "strategies"
            """
        ).Deck!;

        var zone = Assert.Single(deck.Zones);
        Assert.Equal("gutter line", zone.Name);
        Assert.Equal((0, 30.48), (zone.Left, Math.Round(zone.Right, 9)));
        Assert.Equal((-0.3048, 1.2192), (Math.Round(zone.Low, 9), Math.Round(zone.High, 9)));
        Assert.Equal(1.524, deck.Surveys.CorrelationLengthM!.Value, 1e-12);
        Assert.Equal(
            new DeckLife.Population.SurveyModel
            {
                Learn = false,
                DetectionProbability = 0.8,
                SoundingAreaError = 0.15,
                ModelDiscrepancySd = 0.3,
                CorrelationLengthM = deck.Surveys.CorrelationLengthM,
                PassiveMeanMv = -150,
                PassiveSdMv = 60,
                ActiveMeanMv = -400,
                ActiveSdMv = 50,
            },
            deck.Surveys
        );
    }

    [Theory]
    [InlineData(
        "\"zones\": [ { \"name\": \"span 1\", \"from\": \"10 ft\", \"to\": \"5 ft\", \"low\": \"0 ft\", \"high\": \"4 ft\" } ]",
        "zones[0].to"
    )]
    [InlineData(
        "\"surveyModel\": { \"detectionProbability\": 1.2 }",
        "surveyModel.detectionProbability"
    )]
    [InlineData(
        "\"surveyModel\": { \"passiveMean_mv_cse\": 900 }",
        "surveyModel.passiveMean_mv_cse"
    )]
    public void Read_ImpossibleZoneOrSurveyModel_IsSaidAtItsKey(string text, string key)
    {
        var result = With("\"strategies\"", text + ",\n\"strategies\"");

        var error = OnlyError(result, DiagnosticCatalogue.QuantityImpossible.Code);
        Assert.Contains(key, error.Text, StringComparison.Ordinal);
    }

    // Every text that is a number and a unit: without its unit, with another, with two, as a bare number.
    public static TheoryData<string> Quantities()
    {
        var data = new TheoryData<string>();
        foreach (
            System.Text.RegularExpressions.Match match in System.Text.RegularExpressions.Regex.Matches(
                Text,
                "\"(?<key>\\w+)\": (?<value>\"[0-9][0-9./ ]* (?:ft2|in|yr|d|lb/yd3|mm2/yr)\")"
            )
        )
        {
            data.Add(match.Value);
        }

        return data;
    }

    [Fact]
    public void Read_EveryKindOfPrice_InCanonicalUnits()
    {
        var result = With(
            "{ \"item\": \"mobilisation\", \"per\": \"lump-sum\", \"price\": \"40000 each\" }",
            """
            { "item": "mobilisation", "per": "lump-sum", "price": "40000 each", "cov": "20 %", "includes": "traffic control" },
                  { "item": "shallow", "per": "removed-area", "price": "10 per m2", "toDepth": "1 in" },
                  { "item": "stage", "per": "stage", "price": "500 per stage" },
                  { "item": "delay", "per": "closure-day", "price": "8000 per day", "paidBy": "users", "growth": "1 %" },
                  { "item": "joints", "per": "grade-rise", "price": "25400 per in" },
                  { "item": "washing", "per": "year", "price": "2500 per year" },
                  { "item": "cold patch", "per": "interim-repaired-area", "price": "30 per m2" }
                ],
                "growth": 0.005, "levelCov": 0.1, "stages": 2, "interimRepairEvery": "5 yr",
                "quantityGrowth": { "mean": 1.3, "cov": 0.2 },
                "closure": { "perStage": "4 d", "areaPerDay": "50 m2" },
                "afterLimit": [ { "action": "another overlay", "price": "400 per m2", "life": { "mean": "18 yr", "cov": 0.3 } }
            """
        );

        Assert.True(result.Deck is not null, string.Join("\n", result.Problems));
        var prices = result.Deck.Prices!;
        var items = prices.Items.ToDictionary(p => p.Item);
        Assert.Equal(0.2, items["mobilisation"].CoefficientOfVariation);
        Assert.Equal("traffic control", items["mobilisation"].Includes);
        Assert.Equal(25.4, items["shallow"].ToDepthMm);
        Assert.Equal(Payer.Users, items["delay"].PaidBy);
        Assert.Equal(0.01, items["delay"].GrowthPerYr);
        // 25400 an inch is 1000 a millimetre.
        Assert.Equal(1000, items["joints"].Amount, 1e-9);
        Assert.Equal(PriceBasis.InterimRepairedArea, items["cold patch"].Basis);
        Assert.Equal(4, prices.ClosureDaysPerStage, 1e-12);
        Assert.Equal(8 + (200 / 50.0), prices.ClosureDays(200), 1e-12);
        Assert.Equal(0.005, prices.GrowthPerYr);
        Assert.Equal(1.3, prices.QuantityGrowth!.Value.Mean);
        var next = Assert.Single(prices.AfterLimit);
        Assert.Equal(
            (400, 18, 0.3),
            (next.AmountPerM2, next.LifeYr.Mean, next.LifeYr.CoefficientOfVariation)
        );
    }

    [Theory]
    [InlineData("\"removal\": { \"from\": \"2 in\", \"to\": \"1 in\", \"step\": \"1/4 in\" }")]
    [InlineData("\"removal\": { \"from\": \"0 in\", \"to\": \"4 in\", \"step\": \"1 mm\" }")]
    [InlineData("\"limits\": { \"remainingThickness\": \"40 in\" }")]
    [InlineData("\"limits\": { \"barsExposed\": \"120 %\" }")]
    public void Read_DepthSearchThatCanNotBe_OneErrorAtItsPlace(string search) =>
        OnlyError(
            With(
                "\"horizon\": \"60 yr\",",
                $"\"horizon\": \"60 yr\", \"depthSearch\": {{ {search} }},"
            ),
            DiagnosticCatalogue.QuantityImpossible.Code
        );

    [Fact]
    public void Read_DepthSearch_StepsAndLimitsInCanonicalUnits()
    {
        var result = With(
            "\"horizon\": \"60 yr\",",
            "\"horizon\": \"60 yr\", \"depthSearch\": { \"at\": \"2 yr\", \"removal\": { \"from\": \"1/4 in\", \"to\": \"1 in\", \"step\": \"1/4 in\" }, \"limits\": { \"addedDeadLoad\": \"10 lbf/ft2\", \"budget\": 250000 } },"
        );

        Assert.True(result.Deck is not null, string.Join("\n", result.Problems));
        var search = result.Deck.DepthSearch!;
        Assert.Equal(2, search.At!.Value.Years);
        Assert.Equal(
            [6.35, 12.7, 19.05, 25.4],
            search.RemovalDepths.Select(d => Math.Round(d.Millimetres, 9))
        );
        // 10 lbf/ft²: 4.4482216152605 N and 0.3048 m by definition.
        Assert.Equal(
            10 * 4.4482216152605 / (0.3048 * 0.3048) / 1000,
            search.Limits.AddedDeadLoadKnPerM2!.Value,
            1e-12
        );
        Assert.Equal(250_000, search.Limits.Budget);
    }

    [Theory]
    [MemberData(nameof(Quantities))]
    public void Read_QuantityWithoutOrWithTwoUnits_Error(string member)
    {
        var value = member[(member.IndexOf(": ", StringComparison.Ordinal) + 2)..];
        var number = value[..value.LastIndexOf(' ')];
        var unit = value[value.LastIndexOf(' ')..^1];
        foreach (
            var wrong in new[]
            {
                $"{number}\"",
                $"{number}{unit}{unit}\"",
                $"{number} °C\"",
                $"{number} mV\"",
                "5",
                "true",
                "null",
                "[]",
                "\"\"",
            }
        )
        {
            var result = With(member, member.Replace(value, wrong, StringComparison.Ordinal));

            Assert.Null(result.Deck);
            Assert.Contains(
                result.Problems,
                p => p.Severity == Severity.Error && p.Code is "DL1107" or "DL1105" or "DL1125"
            );
        }
    }

    [Theory]
    [InlineData("\"deckThickness\"", "\"deckThicknes\"", "deckThickness")]
    [InlineData(
        "\"source\": \"invented for this example\"\n  },\n  \"chlorides\"",
        "\"sources\": \"x\" },\n  \"chlorides\"",
        "source"
    )]
    [InlineData("\"ageingExponent\"", "\"agingExponent\"", "ageingExponent")]
    public void Read_MisspeltKey_ErrorWithTheNearestName(string from, string to, string near)
    {
        var result = With(from, to);

        Assert.Contains(
            $"Did you mean '{near}'",
            result.Problems.First(p => p.Code == "DL1103").Text,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("\"horizon\": \"60 yr\",", "", "DL1104")]
    [InlineData(
        "\"horizon\": \"60 yr\",",
        "\"horizon\": \"60 yr\", \"horizon\": \"50 yr\",",
        "DL1102"
    )]
    [InlineData("\"horizon\": \"60 yr\",", "\"horizon\": \"600 yr\",", "DL1108")]
    [InlineData("\"30 yr\"", "\"0 yr\"", "DL1108")]
    [InlineData("\"damageLimit\": \"10 %\"", "\"damageLimit\": 10", "DL1108")]
    [InlineData("\"type\": \"bare\"", "\"type\": \"black\"", "DL1106")]
    [InlineData("\"cov\": 0.3", "\"cov\": \"a lot\"", "DL1107")]
    [InlineData("\"seed\": 7", "\"seed\": 7.5", "DL1108")]
    [InlineData(
        "\"material\": \"dense overlay\", \"thickness\"",
        "\"material\": \"dense\", \"thickness\"",
        "DL1109"
    )]
    [InlineData("\"name\": \"do nothing\"", "\"name\": \"mill and overlay\"", "DL1110")]
    [InlineData(
        "\"rule\": \"fixed-depth\", \"depth\": \"1 1/4 in\"",
        "\"rule\": \"chloride-limit\", \"limit\": \"1 lb/yd3\", \"minimumDepth\": \"2 in\", \"maximumDepth\": \"1 in\"",
        "DL1108"
    )]
    [InlineData("\"price\": \"4 per ft2\"", "\"price\": \"$4 per ft2\"", "DL1107")]
    [InlineData("\"price\": \"4 per ft2\"", "\"price\": \"4 CAD per ft2\"", "DL1107")]
    [InlineData("\"price\": \"40000 each\"", "\"price\": \"40,000 each\"", "DL1107")]
    [InlineData("\"price\": \"40000 each\"", "\"price\": \"40000 per m2\"", "DL1107")]
    [InlineData("\"mean\": \"1.6 lb/yd3\"", "\"mean\": \"0.07 % of concrete\"", "DL1030")]
    [InlineData(
        "\"extraction\": \"acid-soluble\",",
        "\"extraction\": \"water-soluble\",",
        "DL1039"
    )]
    [InlineData("\"surveyDate\": \"2031-06-15\"", "\"surveyDate\": \"06/15/2031\"", "DL1020")]
    [InlineData(
        "\"extraction\": \"acid-soluble\" }",
        "\"extraction\": \"acid-soluble\", \"file\": \"../chlorides.csv\" }",
        "DL1108"
    )]
    public void Read_OneFault_OneErrorAtItsPlace(string from, string to, string code)
    {
        var error = OnlyError(With(from, to), code);

        Assert.True(error.Row > 1);
    }

    [Theory]
    [InlineData("\"horizon\": \"60 yr\",", "\"horizon\": \"60 yr\"")]
    [InlineData("{", "[")]
    [InlineData("\"area\"", "area")]
    public void Read_BrokenJson_OneErrorWithItsLine(string from, string to)
    {
        var result = With(from, to);

        Assert.Null(result.Deck);
        Assert.True(result.IsUnreadable);
        Assert.Contains(
            Assert.Single(result.Problems, p => p.Severity == Severity.Error).Code,
            new[] { "DL1101", "DL1105" }
        );
    }

    [Fact]
    public void Read_AssumedDensity_ReportedWithItsEffect()
    {
        File.WriteAllText(
            Path.Combine(folder, "chlorides.csv"),
            "core,top_in,bottom_in,chloride_percent_of_concrete\nC1,0.25,0.75,0.2\nC1,0.75,1.25,0.1\n"
        );
        var deck = With(
            "\"chlorides\": {",
            "\"concrete\": { \"density\": { \"assumed\": \"3915 lb/yd3\", \"source\": \"common practice\" } }, \"chlorides\": {"
        ).Deck!;

        Assert.Equal(0.2 / 100 * 3915, deck.Cores[0].Slices[0].Content.PoundsPerCubicYard, 9);
        var assumption = Assert.Single(
            deck.Assumptions,
            a => a.Subject.StartsWith("density", StringComparison.Ordinal)
        );
        Assert.Equal("common practice", assumption.Source);
        Assert.Contains("2 to 4 %", assumption.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_MassBasisWithoutMix_ErrorNamesTheKey()
    {
        File.WriteAllText(
            Path.Combine(folder, "chlorides.csv"),
            "core,top_in,bottom_in,chloride_percent_of_binder\nC1,0.25,0.75,0.2\n"
        );

        var error = Assert.Single(
            DeckFolder.Read(folder).Problems,
            p => p.Severity == Severity.Error
        );

        Assert.Equal(("DL1030", "chlorides.csv"), (error.Code, error.File));
        Assert.Contains("concrete.binderContent", error.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ExistingOverlay_NeedsTheSurfaceThatDepthsAndCoversCountFrom()
    {
        const string overlay =
            "\"existingOverlay\": { \"material\": \"old overlay\", \"thickness\": \"1 1/2 in\", \"placed\": \"2011-06-15\", \"removedBefore\": \"1/4 in\" }, ";
        var open = With("\"horizon\"", overlay + "\"horizon\"");
        Assert.Equal(2, open.Problems.Count(p => p.Code == "DL1117"));

        var text = Text.Replace(
                "\"horizon\"",
                overlay + "\"cover\": { \"measuredFrom\": \"deck-concrete\" }, \"horizon\"",
                StringComparison.Ordinal
            )
            .Replace(
                "\"chlorides\": {",
                "\"chlorides\": { \"depthsFrom\": \"present-surface\",",
                StringComparison.Ordinal
            );
        File.WriteAllText(Path.Combine(folder, "deck.json"), text);
        var deck = DeckFolder.Read(folder).Deck!;

        Assert.Equal(
            new ExistingOverlay
            {
                Material = "old overlay",
                Thickness = Depth.FromMillimetres(38.1),
                AgeAtSurvey = Age.FromDays(7305),
                RemovedBefore = Depth.FromMillimetres(6.35),
            },
            deck.ExistingOverlay! with
            {
                Thickness = Depth.FromMillimetres(
                    Math.Round(deck.ExistingOverlay!.Thickness.Millimetres, 9)
                ),
                RemovedBefore = Depth.FromMillimetres(
                    Math.Round(deck.ExistingOverlay.RemovedBefore!.Value.Millimetres, 9)
                ),
            }
        );
        Assert.Equal(
            (MeasuringSurface.PresentSurface, MeasuringSurface.DeckConcrete),
            (deck.ChlorideDepthsFrom, deck.CoversFrom)
        );
    }

    [Theory]
    [InlineData("cover.csv", "DL1114")]
    [InlineData("half-cell.csv", "DL1115")]
    [InlineData("sounding.csv", "DL1116")]
    public void Read_WithoutAnOptionalTable_DeckAndWhatIsMissed(string file, string code)
    {
        File.Delete(Path.Combine(folder, file));

        var result = DeckFolder.Read(folder);

        Assert.NotNull(result.Deck);
        Assert.Contains(result.Problems, p => p.Code == code);
        Assert.Contains(result.Deck.Diagnostics, p => p.Code == code);
    }

    [Theory]
    [InlineData("deck.json")]
    [InlineData("chlorides.csv")]
    public void Read_WithoutANeededFile_Unreadable(string file)
    {
        File.Delete(Path.Combine(folder, file));

        var result = DeckFolder.Read(folder);

        Assert.Null(result.Deck);
        Assert.True(result.IsUnreadable);
        Assert.Equal(file, Assert.Single(result.Problems, p => p.Severity == Severity.Error).File);
    }

    [Fact]
    public void Read_TablesInOneWorkbook_SameDeckAsText()
    {
        object?[][] Rows(string file) =>
            [
                .. File.ReadAllLines(Path.Combine(Minimal, file))
                    .Where(l => l.Length > 0)
                    .Select(l =>
                        l.Split(',')
                            .Select(c =>
                                double.TryParse(
                                    c,
                                    NumberStyles.Float,
                                    CultureInfo.InvariantCulture,
                                    out var n
                                )
                                    ? (object)n
                                    : c
                            )
                            .ToArray()
                    ),
            ];
        var expected = DeckFolder.Read(folder).Deck!;
        File.WriteAllBytes(
            Path.Combine(folder, "surveys.xlsx"),
            Workbooks.InventedWorkbook.Write(
                ("Chlorides", Rows("chlorides.csv")),
                ("Cover", Rows("cover.csv")),
                ("Half cell", Rows("half-cell.csv")),
                ("Sounding", Rows("sounding.csv"))
            )
        );
        Assert.Equal(4, DeckFolder.Read(folder).Problems.Count(p => p.Code == "DL1124"));
        foreach (
            var file in new[] { "chlorides.csv", "cover.csv", "half-cell.csv", "sounding.csv" }
        )
        {
            File.Delete(Path.Combine(folder, file));
        }

        var deck = DeckFolder.Read(folder).Deck!;

        Assert.Equal(expected.Cores.AsEnumerable(), deck.Cores);
        Assert.Equal(expected.Covers.AsEnumerable(), deck.Covers);
        Assert.Equal(expected.HalfCells.AsEnumerable(), deck.HalfCells);
        Assert.Equal(expected.Soundings.AsEnumerable(), deck.Soundings);
        Assert.Equal(["deck.json", "surveys.xlsx"], deck.Inputs.Select(i => i.Name));
    }

    [Theory]
    [InlineData("en-US")]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    public void Read_AnyCulture_SameDeckAndSameProblems(string culture)
    {
        var expected = DeckFolder.Read(Minimal);
        var broken = DeckFolder.Read(Path.Combine(DeckFolderTests.Inputs, "broken-deck"));
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            Assert.Equal(expected.Deck!.Cores.AsEnumerable(), DeckFolder.Read(Minimal).Deck!.Cores);
            Assert.Equal(
                expected.Deck.Materials.AsEnumerable(),
                DeckFolder.Read(Minimal).Deck!.Materials
            );
            Assert.Equal(
                broken.Problems.AsEnumerable(),
                DeckFolder.Read(Path.Combine(DeckFolderTests.Inputs, "broken-deck")).Problems
            );
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Read_SeveralInterventionsWithProtectionsAndARim_AsWritten()
    {
        var result = With(
            "  \"strategies\": [\n    { \"name\": \"do nothing\" },",
            """
              "halo": { "patchSide": "3 ft", "width": "6 in", "rateFactor": 1.5, "source": "judgement" },
              "strategies": [
                { "name": "do nothing" },
                { "name": "patch and seal", "interventions": [
                  { "at": "2 yr", "remove": { "rule": "unsound-areas" } },
                  { "at": "5 yr", "protect": { "material": "silane" }, "damage": "leave" },
                  { "at": "9 yr", "remove": { "rule": "half-cell-limit", "potential": "-350 mV CSE", "depth": "1/4 in" },
                    "overlay": { "material": "dense overlay", "thickness": "1 1/2 in" } },
                  { "at": "20 yr", "when": "overlay-ends", "protect": { "material": "epoxy", "thickness": "3/8 in" } } ] },
            """,
            "  \"materials\": [",
            """
              "materials": [
                { "name": "silane", "sealer": { "passingFraction": "60 %" }, "serviceLife": "7 yr", "source": "invented" },
                { "name": "epoxy", "barrier": { "leakFraction": 0.05 }, "serviceLife": { "mean": "18 yr", "cov": 0.2 },
                  "density": "1900 kg/m3", "source": "invented" },
            """
        );

        var deck = result.Deck!;
        Assert.Equal(914.4, deck.Halo!.PatchSide.Millimetres, 1e-9);
        Assert.Equal(1.5, deck.Halo.RateFactor);
        Assert.Equal(
            [("silane", ProtectionKind.Sealer, 0.6), ("epoxy", ProtectionKind.Barrier, 0.05)],
            deck.Protections.Select(p => (p.Name, p.Kind, p.PassingFraction))
        );
        Assert.Single(deck.Materials);
        var steps = deck.Strategies.Single(s => s.Name == "patch and seal").Interventions;
        Assert.IsType<UnsoundAreaRemoval>(steps[0].Removal);
        Assert.Equal("silane", steps[1].Protection!.Material);
        Assert.Equal(false, steps[1].RepairsDamage);
        var rule = Assert.IsType<HalfCellRemoval>(steps[2].Removal);
        Assert.Equal(-350, rule.Limit.MillivoltsCse);
        Assert.Equal(6.35, rule.Elsewhere.Millimetres, 1e-9);
        Assert.True(steps[3].WhenOverlayEnds);
        Assert.Equal(9.525, steps[3].Protection!.Thickness.Millimetres, 1e-9);
    }

    [Theory]
    [InlineData("{ \"rule\": \"unsound-areas\", \"depth\": \"1 in\" }", "DL1112")]
    [InlineData("{ \"rule\": \"half-cell-limit\" }", "DL1104")]
    [InlineData("{ \"rule\": \"half-cell-limit\", \"potential\": \"-350 mV\" }", "DL1107")]
    [InlineData("{ \"rule\": \"half-cell-limit\", \"potential\": \"350 mV CSE\" }", null)]
    public void Read_RemovalRuleWithTheWrongKeys_Error(string rule, string? code)
    {
        var result = With("{ \"rule\": \"fixed-depth\", \"depth\": \"1 1/4 in\" }", rule);

        Assert.Null(result.Deck);
        Assert.Contains(
            result.Problems,
            p => p.Severity == Severity.Error && (code is null || p.Code == code)
        );
    }

    [Fact]
    public void Read_MaterialThatIsTwoThings_Error()
    {
        var result = With(
            "  \"materials\": [",
            "  \"materials\": [ { \"name\": \"x\", \"sealer\": { \"passingFraction\": 0.5 }, \"barrier\": { \"leakFraction\": 0 }, \"serviceLife\": \"5 yr\", \"source\": \"invented\" },"
        );

        Assert.Null(result.Deck);
        Assert.Contains(result.Problems, p => p.Code == "DL1111");
    }

    [Fact]
    public void Schema_KeysOfTheMinimalDeck_AreAllInIt()
    {
        using var schema = System.Text.Json.JsonDocument.Parse(DeckSchema.Write());
        var known = schema
            .RootElement.GetProperty("properties")
            .EnumerateObject()
            .Select(p => p.Name)
            .ToHashSet();
        using var deck = System.Text.Json.JsonDocument.Parse(
            Text,
            new System.Text.Json.JsonDocumentOptions
            {
                CommentHandling = System.Text.Json.JsonCommentHandling.Skip,
            }
        );

        Assert.All(deck.RootElement.EnumerateObject(), m => Assert.Contains(m.Name, known));
        Assert.Contains(
            "surveyDate",
            schema.RootElement.GetProperty("required").EnumerateArray().Select(r => r.GetString())
        );
    }
}
