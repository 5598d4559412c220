using static DeckLife.ReferenceChecks.Nist.Dual;

namespace DeckLife.ReferenceChecks.Nist;

/// <summary>The model functions of the nonlinear Statistical Reference Datasets, as each dataset's file states them.</summary>
internal static class NistModels
{
    public static Func<Dual[], double[], Dual> Of(string name) =>
        name switch
        {
            "Bennett5" => (b, x) => b[0] * Pow(b[1] + x[0], -1 / b[2]),
            "BoxBOD" or "Misra1a" => (b, x) => b[0] * (1 - Exp(-b[1] * x[0])),
            "Chwirut1" or "Chwirut2" => (b, x) => Exp(-b[0] * x[0]) / (b[1] + (b[2] * x[0])),
            "DanWood" => (b, x) => b[0] * Pow(x[0], b[1]),
            "ENSO" => Enso,
            "Eckerle4" => (b, x) => b[0] / b[1] * Exp(-0.5 * Square((x[0] - b[2]) / b[1])),
            "Gauss1" or "Gauss2" or "Gauss3" => (b, x) =>
                (b[0] * Exp(-b[1] * x[0]))
                + (b[2] * Exp(-Square((x[0] - b[3]) / b[4])))
                + (b[5] * Exp(-Square((x[0] - b[6]) / b[7]))),
            "Hahn1" or "Thurber" => (b, x) =>
                (b[0] + (x[0] * (b[1] + (x[0] * (b[2] + (x[0] * b[3]))))))
                / (1 + (x[0] * (b[4] + (x[0] * (b[5] + (x[0] * b[6])))))),
            "Kirby2" => (b, x) =>
                (b[0] + (x[0] * (b[1] + (x[0] * b[2])))) / (1 + (x[0] * (b[3] + (x[0] * b[4])))),
            "Lanczos1" or "Lanczos2" or "Lanczos3" => (b, x) =>
                (b[0] * Exp(-b[1] * x[0]))
                + (b[2] * Exp(-b[3] * x[0]))
                + (b[4] * Exp(-b[5] * x[0])),
            "MGH09" => (b, x) =>
                b[0] * ((x[0] * x[0]) + (x[0] * b[1])) / ((x[0] * x[0]) + (x[0] * b[2]) + b[3]),
            "MGH10" => (b, x) => b[0] * Exp(b[1] / (x[0] + b[2])),
            "MGH17" => (b, x) => b[0] + (b[1] * Exp(-b[3] * x[0])) + (b[2] * Exp(-b[4] * x[0])),
            "Misra1b" => (b, x) => b[0] * (1 - Pow(1 + (b[1] * x[0] / 2), -2)),
            "Misra1c" => (b, x) => b[0] * (1 - Pow(1 + (2 * b[1] * x[0]), -0.5)),
            "Misra1d" => (b, x) => b[0] * b[1] * x[0] / (1 + (b[1] * x[0])),
            // The response is ln y.
            "Nelson" => (b, x) => b[0] - (b[1] * x[0] * Exp(-b[2] * x[1])),
            "Rat42" => (b, x) => b[0] / (1 + Exp(b[1] - (b[2] * x[0]))),
            "Rat43" => (b, x) => b[0] / Pow(1 + Exp(b[1] - (b[2] * x[0])), 1 / b[3]),
            "Roszman1" => (b, x) => b[0] - (b[1] * x[0]) - (Atan(b[2] / (x[0] - b[3])) / Math.PI),
            _ => throw new ArgumentException($"unknown problem {name}", nameof(name)),
        };

    private static Dual Enso(Dual[] b, double[] x)
    {
        const double TwoPi = 2 * Math.PI;
        var year = TwoPi * x[0] / 12;
        return b[0]
            + (b[1] * Math.Cos(year))
            + (b[2] * Math.Sin(year))
            + (b[4] * Cos(TwoPi * x[0] / b[3]))
            + (b[5] * Sin(TwoPi * x[0] / b[3]))
            + (b[7] * Cos(TwoPi * x[0] / b[6]))
            + (b[8] * Sin(TwoPi * x[0] / b[6]));
    }

    private static Dual Square(Dual a) => a * a;
}
