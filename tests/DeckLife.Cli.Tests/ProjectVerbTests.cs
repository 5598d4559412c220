using System.Globalization;
using System.Text.Json;
using Xunit;

namespace DeckLife.Cli.Tests;

public sealed class ProjectVerbTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("decklife-project").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Run_DeckFolderAsJson_HasTheDocumentedForm()
    {
        WriteDeck();

        var (code, text, error) = Run("--format", "json");

        Assert.True(code == ExitCodes.Done, error);
        using var json = JsonDocument.Parse(text);
        var root = json.RootElement;
        Assert.Equal("Test deck (invented)", root.GetProperty("deck").GetString());
        Assert.Equal(2031, root.GetProperty("startYear").GetInt32());
        var strategies = root.GetProperty("strategies").EnumerateArray().ToArray();
        Assert.Equal(2, strategies.Length);
        foreach (var strategy in strategies)
        {
            Assert.Equal(
                "10 % of the deck area damaged",
                strategy.GetProperty("serviceLife").GetProperty("criterion").GetString()
            );
            var curve = strategy.GetProperty("curve").EnumerateArray().ToArray();
            Assert.Equal(
                Enumerable.Range(0, 41).Select(t => (double)t),
                curve.Select(p => p.GetProperty("time_yr").GetDouble())
            );
            Assert.All(
                curve,
                p =>
                {
                    var band = p.GetProperty("damaged");
                    Assert.InRange(band.GetProperty("p50").GetDouble(), 0, 1);
                    Assert.True(
                        band.GetProperty("p05").GetDouble() <= band.GetProperty("p95").GetDouble()
                    );
                }
            );
            var cost = strategy.GetProperty("cost");
            Assert.Equal("USD", cost.GetProperty("currency").GetString());
            var rates = cost.GetProperty("byDiscountRate").EnumerateArray().ToArray();
            Assert.Equal(
                [0, 0.03, 0.05],
                rates.Select(r => Math.Round(r.GetProperty("rate_per_yr").GetDouble(), 12))
            );
            Assert.Equal(
                cost.GetProperty("presentValue").GetDouble(),
                rates[1].GetProperty("presentValue").GetDouble()
            );
        }

        Assert.Equal(
            1,
            strategies.Sum(s => s.GetProperty("cheapestProbability").GetDouble()),
            1e-9
        );
        Assert.All(
            strategies,
            s =>
                Assert.Equal(
                    s.GetProperty("cheapestProbability").GetDouble() == 1,
                    s.GetProperty("expectedRegret").GetDouble() == 0
                )
        );
        var provenance = root.GetProperty("provenance");
        Assert.Equal(9, provenance.GetProperty("seed").GetInt32());
        Assert.Contains(
            provenance.GetProperty("inputs").EnumerateArray(),
            f =>
                f.GetProperty("file").GetString() == "deck.json"
                && f.GetProperty("sha256").GetString()!.Length == 64
        );
        Assert.True(root.GetProperty("cautions").GetArrayLength() >= 4);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_AnyCultureAndThreads_SameBytes()
    {
        WriteDeck();
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("en-US");
            var first = Run("--format", "json", "--threads", "1").Output;
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            var second = Run("--format", "json", "--threads", "2").Output;
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("tr-TR");
            var third = Run("--format", "json", "--threads", "8").Output;

            Assert.NotEmpty(first);
            Assert.Equal(first, second);
            Assert.Equal(first, third);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Run_Csv_OneRowAStrategyAndYear()
    {
        WriteDeck();

        var lines = Run("--format", "csv")
            .Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);

        Assert.Equal(1 + 2 * 41, lines.Length);
        Assert.StartsWith(
            "strategy,time_yr,calendar_year,damaged_fraction_p05",
            lines[0],
            StringComparison.Ordinal
        );
        Assert.All(lines, l => Assert.Equal(11, l.Count(c => c == ',')));
    }

    [Fact]
    public void Run_OutFolder_HoldsTheTablesWithTheNumbersOfTheJsonAndIsNotOverwritten()
    {
        WriteDeck();
        var results = Path.Combine(folder, "results");

        var (code, text, error) = Run("--format", "json", "--out", results);

        Assert.True(code == ExitCodes.Done, error);
        Assert.Equal(
            ["costs.csv", "curves.csv", "projection.json", "strategies.csv", "work.csv"],
            Directory.GetFiles(results).Select(Path.GetFileName).Order(StringComparer.Ordinal)
        );
        Assert.Equal(text, File.ReadAllText(Path.Combine(results, "projection.json")));
        List<Dictionary<string, string>> Rows(string name)
        {
            var lines = File.ReadAllLines(Path.Combine(results, name));
            var head = lines[0].Split(',');
            return
            [
                .. lines
                    .Skip(1)
                    .Select(l => head.Zip(l.Split(',')).ToDictionary(p => p.First, p => p.Second)),
            ];
        }

        double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
        using var json = JsonDocument.Parse(text);
        var strategies = json.RootElement.GetProperty("strategies").EnumerateArray().ToArray();
        var rows = Rows("strategies.csv");
        Assert.Equal(strategies.Length, rows.Count);
        foreach (var (row, strategy) in rows.Zip(strategies))
        {
            Assert.Equal(strategy.GetProperty("name").GetString(), row["strategy"]);
            Assert.Equal(
                strategy.GetProperty("cost").GetProperty("presentValue").GetDouble(),
                Number(row["present_value_p50"])
            );
            Assert.Equal(
                strategy.GetProperty("expectedRegret").GetDouble(),
                Number(row["expected_regret"])
            );
            // A percentile beyond the horizon is left out of the JSON, and its cell is empty.
            Assert.Equal(
                strategy.GetProperty("serviceLife").TryGetProperty("p95_yr", out var p95)
                    ? p95.GetDouble()
                    : null,
                row["life_p95_yr"].Length == 0 ? null : (double?)Number(row["life_p95_yr"])
            );
        }

        var work = Assert.Single(Rows("work.csv"));
        Assert.Equal(
            ("overlay", "10: 1"),
            (work["strategy"], work["depth_classes_mm_and_fraction"])
        );
        Assert.Equal(35, Number(work["grade_rise_mm"]), 1e-9);
        Assert.Equal(
            rows.Select(r => r["strategy"]).ToHashSet(),
            Rows("costs.csv").Select(r => r["strategy"]).ToHashSet()
        );

        (code, text, _) = Run("--out", results);
        Assert.Equal((ExitCodes.UnusableInput, ""), (code, text));
    }

    [Fact]
    public void Run_CsvOfAFormulaAsName_IsQuotedTextThatCannotAct()
    {
        WriteDeck();
        var file = Path.Combine(folder, "deck.json");
        File.WriteAllText(
            file,
            File.ReadAllText(file)
                .Replace("\"do nothing\"", "\"=HYPERLINK(\\\"x\\\",1)\"", StringComparison.Ordinal)
        );

        var (code, output, error) = Run("--format", "csv");

        Assert.True(code == ExitCodes.Done, error);
        var lines = output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.StartsWith(
            "\"'=HYPERLINK(\"\"x\"\",1)\",0,2031,",
            lines[1],
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(lines, l => l.TrimStart('"')[0] is '=' or '+' or '-' or '@');
    }

    [Fact]
    public void Run_DepthMapAndResurveyAsJson_HasTheDocumentedForm()
    {
        WriteDeck();

        var (code, text, error) = Run("--format", "json", "--depth-map", "--resurvey", "5");

        Assert.True(code == ExitCodes.Done, error);
        using var json = JsonDocument.Parse(text);
        var map = json.RootElement.GetProperty("depthMap");
        var cells = map.GetProperty("cells").EnumerateArray().ToArray();
        // Three depths by two thicknesses of one material.
        Assert.Equal(6, cells.Length);
        Assert.Equal(30, map.GetProperty("limits").GetProperty("gradeRise_mm").GetDouble());
        Assert.All(
            cells,
            c =>
            {
                var rise =
                    c.GetProperty("thickness_mm").GetDouble()
                    - c.GetProperty("removal_mm").GetDouble();
                Assert.Equal(rise, c.GetProperty("gradeRise_mm").GetDouble(), 1e-9);
                // No density of the overlay is stated: the limit on dead load is never shown to be kept.
                Assert.False(c.GetProperty("allowed").GetBoolean());
                Assert.Equal(rise > 30 ? 2 : 1, c.GetProperty("broken").GetArrayLength());
            }
        );
        Assert.False(map.TryGetProperty("best", out _));
        Assert.Equal("overlay", map.GetProperty("points")[0].GetProperty("strategy").GetString());

        var decision = json.RootElement.GetProperty("decision");
        var information = decision.GetProperty("valueOfInformation");
        var offers = information.GetProperty("offers").EnumerateArray().ToArray();
        Assert.Equal(["cores", "sounding"], offers.Select(o => o.GetProperty("kind").GetString()));
        Assert.Equal(
            offers[0].GetProperty("value").GetDouble() - 4000,
            offers[0].GetProperty("net").GetDouble(),
            1e-9
        );
        Assert.False(offers[1].TryGetProperty("net", out _));
        var wait = Assert.Single(decision.GetProperty("waiting").EnumerateArray());
        Assert.Equal(5, wait.GetProperty("wait_yr").GetInt32());
        Assert.Equal(4, decision.GetProperty("errorBudgets").GetArrayLength());
    }

    [Fact]
    public void Run_DepthMapWithoutAnyOverlay_SaysThatThereIsNothingToMap()
    {
        WriteDeck();
        var file = Path.Combine(folder, "deck.json");
        var text = File.ReadAllText(file);
        var (from, to) = (
            text.IndexOf("\"strategies\"", StringComparison.Ordinal),
            text.IndexOf("\"prices\"", StringComparison.Ordinal)
        );
        File.WriteAllText(
            file,
            text[..from] + "\"strategies\": [ { \"name\": \"do nothing\" } ],\n" + text[to..]
        );

        var (code, output, error) = Run("--format", "json", "--depth-map");

        Assert.True(code == ExitCodes.Done, error);
        Assert.Contains("DL4101", error, StringComparison.Ordinal);
        using var json = JsonDocument.Parse(output);
        Assert.False(json.RootElement.TryGetProperty("depthMap", out _));
    }

    [Fact]
    public void Run_NoCovers_ExitCode2AndProblemsOnly()
    {
        WriteDeck(covers: false);

        var (code, text, error) = Run("--format", "json");

        Assert.Equal(ExitCodes.UnusableInput, code);
        using var json = JsonDocument.Parse(text);
        Assert.Equal(
            "DL4001",
            json.RootElement.GetProperty("problems")[0].GetProperty("code").GetString()
        );
        Assert.Contains("cover", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_MissingFolder_ExitCode2AndNothingOnOutput()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();

        var code = CommandShell.Run(["project", Path.Combine(folder, "absent")], output, error);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(output.ToString());
        Assert.NotEmpty(error.ToString());
    }

    private (int Code, string Output, string Error) Run(params string[] options)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(
            ["project", folder, "--draws", "40", "--points", "64", .. options],
            output,
            error
        );
        return (code, output.ToString(), error.ToString());
    }

    private void WriteDeck(bool covers = true)
    {
        File.WriteAllText(Path.Combine(folder, "deck.json"), DeckJson);
        var slices = new StringWriter { NewLine = "\n" };
        slices.WriteLine("core,top_mm,bottom_mm,chloride_kg_per_m3");
        for (var core = 1; core <= 5; core++)
        {
            // Slices of 6 kg/m3 · erfc(x / 2√(30 · 25)) and a little more or less from core to core.
            for (var slice = 0; slice < 6; slice++)
            {
                var x = 6.5 + 13 * slice;
                var content =
                    (5.4 + 0.3 * core)
                        * MathNet.Numerics.SpecialFunctions.Erfc(
                            x / (2 * Math.Sqrt((26 + 2 * core) * 25.0))
                        )
                    + 0.1
                    + 0.02 * ((core * 7 + slice * 5) % 5 - 2);
                slices.WriteLine(
                    FormattableString.Invariant(
                        $"C-{core},{13 * slice},{13 * slice + 13},{content:F3}"
                    )
                );
            }
        }

        File.WriteAllText(Path.Combine(folder, "chlorides.csv"), slices.ToString());
        if (covers)
        {
            var readings = string.Join(
                "\n",
                Enumerable
                    .Range(0, 40)
                    .Select(i =>
                        FormattableString.Invariant($"{i % 10},{i / 10},{48 + i * 7 % 17}")
                    )
            );
            File.WriteAllText(Path.Combine(folder, "cover.csv"), $"x_m,y_m,cover_mm\n{readings}\n");
        }
    }

    private const string DeckJson = """
        {
          "name": "Test deck (invented)",
          "surveyDate": "2031-05-14",
          "firstSalt": { "age": "25 yr" },
          "area": "600 m2",
          "deckThickness": "200 mm",
          "structure": "cast-in-place",
          "topBars": { "type": "bare", "diameter": "16 mm" },
          "concrete": { "density": "2320 kg/m3" },
          "chlorides": { "extraction": "acid-soluble" },
          "threshold": {
            "content": { "mean": "1.3 kg/m3", "cov": 0.35, "distribution": "lognormal" },
            "withinDeckShare": 0.5, "extraction": "acid-soluble", "source": "test"
          },
          "propagation": { "period": { "mean": "5 yr", "cov": 0.3 }, "source": "test" },
          "materials": [
            { "name": "dense", "diffusion": { "coefficient": { "mean": "10 mm2/yr", "cov": 0.3 }, "referenceAge": "90 d", "ageAtExposure": "28 d" },
              "initialChloride": "0 kg/m3", "source": "test" }
          ],
          "strategies": [
            { "name": "do nothing" },
            { "name": "overlay", "interventions": [ { "at": "1 yr",
                "remove": { "rule": "fixed-depth", "depth": "10 mm" },
                "overlay": { "material": "dense", "thickness": "45 mm" } } ] }
          ],
          "prices": { "currency": "USD", "year": 2031, "items": [
            { "item": "overlay in place", "per": "placed-volume", "price": "1500 per m3", "material": "dense" },
            { "item": "new deck", "per": "renewed-area", "price": "900 per m2" } ] },
          "information": [ { "kind": "cores", "count": 6, "price": 4000 }, { "kind": "sounding", "count": 50 } ],
          "depthSearch": { "removal": { "from": "6 mm", "to": "26 mm", "step": "10 mm" },
            "thickness": { "from": "40 mm", "to": "50 mm", "step": "10 mm" }, "limits": { "gradeRise": "30 mm", "addedDeadLoad": "1.2 kN/m2" } },
          "horizon": "40 yr",
          "discountRate": "3 %",
          "damageLimit": "10 %",
          "analysis": { "seed": 9 }
        }
        """;
}
