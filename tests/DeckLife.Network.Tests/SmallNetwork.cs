using System.Globalization;
using DeckLife.Data.Networks;

namespace DeckLife.Network.Tests;

/// <summary>A small invented network in a temporary folder: decks without cores, one of them broken.</summary>
internal sealed class SmallNetwork : IDisposable
{
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory(
        "decklife-network-test-"
    );

    /// <summary>Writes the network.</summary>
    /// <param name="decks">Number of decks; the third is broken.</param>
    /// <param name="common">More common facts, each ended by a comma.</param>
    public SmallNetwork(int decks = 5, string common = "")
    {
        var members = Enumerable
            .Range(1, decks)
            .Select(i =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $$"""{ "folder": "d{{i}}", "corridor": "A{{i % 2}}", "weight": {{1 + 0.5 * (i % 3)}}, "exposureClass": "valley" }"""
                )
            );
        Write(
            "network.json",
            $$"""
            {
              "name": "invented network for tests",
              "program": { "firstYear": 2032, "years": 3, "budget": 300000, "lastYear": 2045, "closures": { "perYear": 2 } },
              "analysis": { "seed": 7, "draws": 20, "points": 16 },
              "exposureClasses": [
                { "name": "valley", "surfaceChloride": { "mean": "6 kg/m3", "cov": 0.3 }, "diffusionCoefficient": { "mean": "16 mm2/yr", "cov": 0.5 }, "background": "0.1 kg/m3", "source": "invented" }
              ],
              "common": {
                {{common}}
                "deckThickness": "210 mm", "structure": "cast-in-place", "topBars": { "type": "bare", "diameter": "16 mm" },
                "threshold": { "content": { "mean": "1.4 kg/m3", "cov": 0.35 }, "source": "invented" },
                "propagation": { "period": { "mean": "6 yr", "cov": 0.3 }, "source": "invented" },
                "materials": [ { "name": "dense concrete", "diffusion": { "coefficient": "20 mm2/yr", "referenceAge": "28 d", "ageAtExposure": "28 d" }, "source": "invented" } ],
                "strategies": [
                  { "name": "thin overlay", "interventions": [ { "at": "0 yr", "remove": { "rule": "fixed-depth", "depth": "10 mm" }, "overlay": { "material": "dense concrete", "thickness": "40 mm" } } ] },
                  { "name": "thick overlay", "interventions": [ { "at": "2 yr", "remove": { "rule": "fixed-depth", "depth": "40 mm" }, "overlay": { "material": "dense concrete", "thickness": "60 mm" } } ] }
                ],
                "prices": { "currency": "USD", "year": 2032, "items": [
                  { "item": "traffic", "per": "lump-sum", "price": "20000 each" },
                  { "item": "removal", "per": "removed-volume", "price": "2500 per m3" },
                  { "item": "placing", "per": "placed-volume", "price": "2000 per m3" } ] },
                "horizon": "20 yr", "damageLimit": "10 %"
              },
              "decks": [ {{string.Join(",\n", members)}} ]
            }
            """
        );
        for (var i = 1; i <= decks; i++)
        {
            Write(
                string.Create(CultureInfo.InvariantCulture, $"d{i}/deck.json"),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $$"""{ "name": "Deck {{i}}", "surveyDate": "{{2032 - i % 3}}-06-01", "firstSalt": { "age": "{{24 + 3 * i}} yr" }, {{(i == 3 ? "" : $"\"area\": \"{200 + 60 * i} m2\",")}} "cover": { "stated": { "mean": "{{45 + i}} mm", "cov": 0.15 } } }"""
                )
            );
        }
    }

    /// <summary>The network's folder.</summary>
    public string Folder => place.FullName;

    /// <summary>The network as read.</summary>
    public NetworkReading Read() => NetworkFolder.Read(Folder);

    /// <summary>A new folder of its own.</summary>
    public string Sub(string name) =>
        Directory.CreateDirectory(In("../" + place.Name + "-" + name)).FullName;

    /// <summary>Writes a file of the network.</summary>
    public void Write(string name, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(In(name))!);
        File.WriteAllText(In(name), text);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (
            var folder in Directory.EnumerateDirectories(
                Path.GetDirectoryName(Folder)!,
                place.Name + "*"
            )
        )
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private string In(string name) => Path.GetFullPath(Path.Combine(Folder, name));
}
