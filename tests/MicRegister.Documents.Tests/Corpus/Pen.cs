using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Writes cells and columns as one laboratory does: its language, its days, its decimal mark.</summary>
internal sealed class Pen
{
    /// <param name="isUsual">Whether it takes the usual word for each header and the usual spelling of days.</param>
    public Pen(Dice dice, Vocabulary words, bool isUsual)
    {
        (Dice, Words, IsUsual) = (dice, words, isUsual);
        Days = isUsual ? DayText.Usual(words.Tongue)[0] : dice.One(DayText.Usual(words.Tongue));
    }

    public bool IsUsual { get; }

    public Dice Dice { get; }

    public Vocabulary Words { get; }

    public DayStyle Days { get; set; }

    public bool Uses1904 { get; set; }

    public string Head(Said what) => IsUsual ? Words.Headers(what)[0] : Dice.One(Words.Headers(what));

    /// <summary>A header with its unit, in one of the usual spellings.</summary>
    public string Head(Said what, string unit) => With(Head(what), unit);

    public string With(string header, string unit) => (IsUsual ? 0 : Dice.Below(3)) switch
    {
        0 => $"{header} [{unit}]",
        1 => $"{header} ({unit})",
        _ => $"{header} in {unit}",
    };

    public string Number(double value, int decimals)
    {
        var text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return Words.HasDecimalComma ? text.Replace('.', ',') : text;
    }

    /// <summary>As many decimals as the value was rounded to.</summary>
    public string Value(Calibrated r) => Number(r.Value, r is { Unit: "mV/Pa", Value: < 10 } ? 3 : 2);

    public static Meaning Text(Said what, Instrument i, string text, Calibrated? r = null) => new(what, i, r, new(text));

    public static Meaning Of(Said what, Instrument i, Calibrated? r, double number, string unit) =>
        new(what, i, r, new(null, number, unit));

    // Columns of the device.
    public Column Kind() => Of(Said.Kind, i => new(Words.Singular(i.Sort)[0], Text(Said.Kind, i, i.Kind)));

    public Column KindInAnyWord() => Of(Said.Kind, i => new(Dice.One(Words.Singular(i.Sort)), Text(Said.Kind, i, i.Kind)));

    public Column Maker() => Of(Said.Maker, i => new(i.Maker, Text(Said.Maker, i, i.Maker)));

    public Column Model() => Of(Said.Model, i => new(i.Model, Text(Said.Model, i, i.Model)));

    public Column Serial() => Of(Said.Serial, Number);

    public Column Code() => Of(Said.Code, i => new(i.Code, Text(Said.Code, i, i.Code)));

    public Column Place() => Of(Said.Place, i => new(i.Place, Text(Said.Place, i, i.Place)));

    public Column Status() => Of(Said.Status, i => new(Words.Statuses(i.Status)[0], Text(Said.Status, i, i.Status.ToString())));

    public Column StatusInAnyWord() =>
        Of(Said.Status, i => new(Dice.One(Words.Statuses(i.Status)), Text(Said.Status, i, i.Status.ToString())));

    /// <summary>The serial number; a workbook holds a plain one as a number.</summary>
    public static Cell Number(Instrument i) => new(i.Serial, Text(Said.Serial, i, i.Serial))
    {
        Typed = i.Serial[0] != '0' && i.Serial.All(char.IsAsciiDigit) ? double.Parse(i.Serial, CultureInfo.InvariantCulture) : null,
    };

    // Columns of the result.
    public Column Day() => Of(Said.Day, DayCell);

    public Cell DayCell(Instrument i, Calibrated r) =>
        new(DayText.Of(r.Day, Days, Words), Text(Said.Day, i, r.Day.ToString("O", CultureInfo.InvariantCulture), r))
        {
            Typed = Days is DayStyle.Typed or DayStyle.Bare ? DayText.Number(r.Day, Uses1904) : null,
            Shown = Days == DayStyle.Typed ? Shown.Day : Shown.Plain,
        };

    public Column Due() => Of(Said.Due, (i, r) =>
    {
        var due = r.Day.AddYears(1);
        return DayCell(i, r with { Day = due }) with { Means = [Text(Said.Due, i, due.ToString("O", CultureInfo.InvariantCulture), r)] };
    });

    public Cell Bare(Instrument i, Calibrated r) => new(Value(r), Of(Said.Value, i, r, r.Value, r.Unit)) { Typed = r.Value };

    public Cell WithUnit(Instrument i, Calibrated r) => new($"{Value(r)} {r.Unit}", Of(Said.Value, i, r, r.Value, r.Unit));

    public Cell AsLevel(Instrument i, Calibrated r) =>
        new(Number(r.Level, 2), Of(Said.Value, i, r, r.Level, "dB re 1 V/Pa")) { Typed = r.Level };

    /// <summary>The level beside the value that it is worked out of.</summary>
    public Cell LevelAgain(Instrument i, Calibrated r) =>
        new(Number(r.Level, 2), Of(Said.Again, i, r, r.Level, "dB re 1 V/Pa")) { Typed = r.Level };

    public Column ValueWithUnit() => Of(Said.Value, WithUnit);

    /// <summary>Values of microphones, the unit in the header.</summary>
    public Column Sensitivity() => new(Head(Said.Value, "mV/Pa"), Result(Bare));

    public Column Level() => new(Head(Said.Level, "dB"), Result(Bare));

    public Column Uncertainty(bool tellsFactor = false) => new(
        (tellsFactor ? "U (k=2)" : Head(Said.U)) + " [dB]",
        Result((i, r) => new(Number(r.U, 2), tellsFactor ? [Of(Said.U, i, r, r.U, "dB"), Of(Said.K, i, r, 2, "")]
            : [Of(Said.U, i, r, r.U, "dB")])
        { Typed = r.U }));

    public Column Factor() => Of(Said.K, (i, r) => new("2", Of(Said.K, i, r, 2, "")) { Typed = 2 });

    public Column Laboratory() => Of(Said.Lab, (i, r) => new(r.Laboratory, Text(Said.Lab, i, r.Laboratory, r)));

    public Column Certificate() => Of(Said.Number, (i, r) => new(r.Number, Text(Said.Number, i, r.Number, r)));

    public Column Frequency() => new(Head(Said.Hz, "Hz"), Result((i, r) => Whole(Said.Hz, i, r, r.Hz, "Hz")));

    public Column Pressure() => new(Head(Said.Pressure, "kPa"),
        Result((i, r) => new(Number(r.KPa, 2), Of(Said.Pressure, i, r, r.KPa, "kPa")) { Typed = r.KPa }));

    public Column Temperature() =>
        new(Head(Said.Temperature, "°C"),
            Result((i, r) => new(Number(r.Celsius, 1), Of(Said.Temperature, i, r, r.Celsius, "°C")) { Typed = r.Celsius }));

    public Column Humidity() => new(Head(Said.Humidity, "%"), Result((i, r) => Whole(Said.Humidity, i, r, r.Percent, "%")));

    /// <summary>A column that is of no use for a register.</summary>
    public Column Other(Said what, Func<Instrument, string> text) => new(Head(what), (i, _) => new(text(i)));

    public static Func<Instrument, Calibrated?, Cell> Result(Func<Instrument, Calibrated, Cell> write) => (i, r) =>
        r is null ? Cell.Blank : write(i, r);

    private Cell Whole(Said what, Instrument i, Calibrated r, double value, string unit) =>
        new(Number(value, 0), Of(what, i, r, value, unit)) { Typed = value };

    private Column Of(Said what, Func<Instrument, Cell> write) => new(Head(what), (i, _) => write(i));

    private Column Of(Said what, Func<Instrument, Calibrated, Cell> write) => new(Head(what), Result(write));
}
