using System.Globalization;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.Data.Ingress;

/// <summary>Reads a layer.</summary>
internal static class LayerReader
{
    public static ConcreteLayer? Read(JsonObjectReader reader)
    {
        var name = reader.Text("name");
        var thickness = reader.Quantity<Depth>("thickness", Depth.TryParse);
        var diffusion = reader.Object("diffusion");
        Age ageAtStart = default;
        var law = diffusion is null ? null : ReadLaw(diffusion, out ageAtStart);
        var initial = reader.Quantity<ChlorideContent>("initialChloride", ChlorideContent.TryParse);
        var capacity = reader.Number("capacity", double.Epsilon, 1e6, isRequired: false);
        var isotherm = reader.Object("isotherm", isRequired: false) is { } binding
            ? ReadIsotherm(binding)
            : null;
        if (capacity is not null && isotherm is not null)
        {
            reader.Reject(reader.Path("capacity"), "give a capacity or an isotherm, not both.");
        }

        var activation = ReadActivation(reader);
        reader.Close();
        if (thickness is { Millimetres: 0 })
        {
            reader.Reject(reader.Path("thickness"), "it must be greater than 0.");
            return null;
        }

        return name is not null && law is not null && thickness is { } t && initial is { } c
            ? new ConcreteLayer
            {
                Name = name,
                Thickness = t,
                Diffusion = law,
                AgeAtStart = ageAtStart,
                InitialChloride = c,
                Capacity = capacity ?? 1,
                Isotherm = isotherm,
                Activation = activation,
            }
            : null;
    }

    private static DiffusionLaw? ReadLaw(JsonObjectReader reader, out Age ageAtStart)
    {
        ageAtStart = default;
        if (reader.Object("apparent", isRequired: false) is { } apparent)
        {
            var coefficient = reader.Has("coefficient") || reader.Has("ageingExponent");
            if (coefficient)
            {
                reader.Reject(
                    reader.Path("apparent"),
                    "give either an apparent law or an instantaneous coefficient, not both."
                );
            }

            reader.Close();
            var da = apparent.Quantity<DiffusionCoefficient>(
                "coefficient",
                DiffusionCoefficient.TryParse
            );
            var exponent = apparent.Number("ageingExponent", 0, 1);
            var reference = apparent.Quantity<Age>("referenceAge", Age.TryParse);
            var constant = apparent.Quantity<Age>("constantAfter", Age.TryParse, isRequired: false);
            apparent.Close();
            return da is { } d && exponent is { } a && reference is { } r
                ? Checked(apparent, () => new ApparentAgeing(d, a, r, constant))
                : null;
        }

        var value = reader.Quantity<DiffusionCoefficient>(
            "coefficient",
            DiffusionCoefficient.TryParse
        );
        var isAgeing = reader.Has("ageingExponent");
        if (!isAgeing)
        {
            // Without ageing only the coefficient is needed; the other keys are known, so that a missing exponent is said.
            foreach (var key in new[] { "referenceAge", "ageAtStart", "constantAfter" })
            {
                if (reader.Has(key))
                {
                    reader.Reject(
                        reader.Path(key),
                        "it needs an ageingExponent beside it; without ageing give the coefficient alone."
                    );
                }
            }

            reader.Close();
            return value is { } d ? new ConstantDiffusion(d) : null;
        }

        var m = reader.Number("ageingExponent", 0, 2);
        var age = reader.Quantity<Age>("referenceAge", Age.TryParse);
        var start = reader.Quantity<Age>("ageAtStart", Age.TryParse);
        var fades = reader.Quantity<Age>("constantAfter", Age.TryParse, isRequired: false);
        reader.Close();
        ageAtStart = start ?? default;
        return value is { } dref && m is { } power && age is { } tref && start is not null
            ? Checked(reader, () => new InstantaneousAgeing(dref, power, tref, fades))
            : null;
    }

    private static BindingIsotherm? ReadIsotherm(JsonObjectReader reader)
    {
        var law = reader.Text("law");
        var water = reader.Number("waterContent", double.Epsilon, 1);
        var alpha = reader.Number("alpha", 0, 1e6);
        var beta = law is "langmuir" or "freundlich" ? reader.Number("beta", 0, 1e6) : null;
        reader.Close();
        if (law is not (null or "linear" or "langmuir" or "freundlich"))
        {
            reader.Reject(
                reader.Path("law"),
                $"\"{law}\" is not known; known are linear, langmuir and freundlich."
            );
            return null;
        }

        if (water is not { } w || alpha is not { } a)
        {
            return null;
        }

        return law switch
        {
            "linear" => new LinearIsotherm(w, a),
            "langmuir" when beta is { } b => new LangmuirIsotherm(w, a, b),
            "freundlich" when beta is { } b => Checked(
                reader,
                () => new FreundlichIsotherm(w, a, b)
            ),
            _ => null,
        };
    }

    private static Activation? ReadActivation(JsonObjectReader reader)
    {
        var text = reader.Text("activation", isRequired: false);
        var reference = reader.Quantity<Temperature>(
            "referenceTemperature",
            Temperature.TryParse,
            isRequired: text is not null
        );
        if (text is null)
        {
            if (reference is not null)
            {
                reader.Reject(
                    reader.Path("referenceTemperature"),
                    "it needs an activation beside it."
                );
            }

            return null;
        }

        foreach (var (unit, isEnergy) in new[] { ("kJ/mol", true), ("K", false) })
        {
            var trimmed = text.Trim();
            if (
                trimmed.EndsWith(unit, StringComparison.Ordinal)
                && double.TryParse(
                    trimmed[..^unit.Length].TrimEnd(),
                    NumberStyles.Float,
                    CultureInfo.InvariantCulture,
                    out var number
                )
                && number is >= 0 and < 1e6
            )
            {
                return reference is not { } at ? null
                    : isEnergy ? Activation.FromEnergy(number, at)
                    : new Activation(number, at);
            }
        }

        reader.Reject(
            reader.Path("activation"),
            $"'{text}' is not an activation: write a number and K or kJ/mol, such as \"4800 K\"."
        );
        return null;
    }

    private static T? Checked<T>(JsonObjectReader reader, Func<T> make)
        where T : class
    {
        try
        {
            return make();
        }
        catch (ArgumentException e)
        {
            reader.Reject(reader.Path("")[..^1], e.Message.ReplaceLineEndings(" "));
            return null;
        }
    }
}
