namespace DeckLife.ReferenceChecks.Nist;

/// <summary>A value with its exact derivatives by all parameters (forward differentiation), for the test models only.</summary>
internal readonly struct Dual(double value, double[] slope)
{
    public double Value { get; } = value;

    public double[] Slope { get; } = slope;

    public static Dual Parameter(double value, int index, int count)
    {
        var slope = new double[count];
        slope[index] = 1;
        return new Dual(value, slope);
    }

    public static Dual operator +(Dual a, Dual b) => Join(a, b, a.Value + b.Value, 1, 1);

    public static Dual operator +(Dual a, double b) => new(a.Value + b, a.Slope);

    public static Dual operator +(double a, Dual b) => b + a;

    public static Dual operator -(Dual a) => a.Chain(-a.Value, -1);

    public static Dual operator -(Dual a, Dual b) => Join(a, b, a.Value - b.Value, 1, -1);

    public static Dual operator -(Dual a, double b) => new(a.Value - b, a.Slope);

    public static Dual operator -(double a, Dual b) => b.Chain(a - b.Value, -1);

    public static Dual operator *(Dual a, Dual b) =>
        Join(a, b, a.Value * b.Value, b.Value, a.Value);

    public static Dual operator *(Dual a, double b) => a.Chain(a.Value * b, b);

    public static Dual operator *(double a, Dual b) => b * a;

    public static Dual operator /(Dual a, Dual b) =>
        Join(a, b, a.Value / b.Value, 1 / b.Value, -a.Value / (b.Value * b.Value));

    public static Dual operator /(Dual a, double b) => a.Chain(a.Value / b, 1 / b);

    public static Dual operator /(double a, Dual b) =>
        b.Chain(a / b.Value, -a / (b.Value * b.Value));

    public static Dual Exp(Dual a)
    {
        var e = Math.Exp(a.Value);
        return a.Chain(e, e);
    }

    public static Dual Cos(Dual a) => a.Chain(Math.Cos(a.Value), -Math.Sin(a.Value));

    public static Dual Sin(Dual a) => a.Chain(Math.Sin(a.Value), Math.Cos(a.Value));

    public static Dual Atan(Dual a) => a.Chain(Math.Atan(a.Value), 1 / (1 + (a.Value * a.Value)));

    public static Dual Pow(Dual a, double p) =>
        a.Chain(Math.Pow(a.Value, p), p * Math.Pow(a.Value, p - 1));

    public static Dual Pow(double a, Dual p)
    {
        var value = Math.Pow(a, p.Value);
        return p.Chain(value, value * Math.Log(a));
    }

    public static Dual Pow(Dual a, Dual p)
    {
        var value = Math.Pow(a.Value, p.Value);
        return Join(
            a,
            p,
            value,
            p.Value * Math.Pow(a.Value, p.Value - 1),
            value * Math.Log(a.Value)
        );
    }

    private Dual Chain(double value, double factor)
    {
        var slope = new double[Slope.Length];
        for (var i = 0; i < slope.Length; i++)
        {
            slope[i] = factor * Slope[i];
        }

        return new Dual(value, slope);
    }

    private static Dual Join(Dual a, Dual b, double value, double da, double db)
    {
        var slope = new double[a.Slope.Length];
        for (var i = 0; i < slope.Length; i++)
        {
            slope[i] = (da * a.Slope[i]) + (db * b.Slope[i]);
        }

        return new Dual(value, slope);
    }
}
