using MicRegister.Metrology.ResponseLimits;
using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.ResponseLimits;

public sealed class PrintedTableTests
{
    // IEC 61672-1:2013, table 3, as a public library transcribes it; not compared with the original.
    private const string Meters = "iec61672-1-2013.csv";

    // IEC 61265:1995, table 1, from the same library.
    private const string Angles = "iec61265-directional.csv";

    // IEC 61183:1994, table B.1, from the same library; its last column is recomputed from the two before it.
    private const string Fields = "iec61183-ls2.csv";

    [Theory]
    [InlineData("IEC 61672-1:2013 class 1", "class1")]
    [InlineData("IEC 61672-1:2013 class 2", "class2")]
    public void Both_limits_of_all_34_bands_are_those_that_are_printed(string key, string column)
    {
        var rows = ReferenceTable.Rows(Meters);
        var table = ResponseTable.Find(key)!;

        Assert.Equal(34, rows.Count);
        Assert.Equal(34, table.Steps.Count);
        foreach (var (row, step) in rows.Zip(table.Steps))
        {
            Assert.Equal(ReferenceTable.Number(row["nominal_hz"]), step.Band.NominalHz, 9);
            Assert.Equal(Db(row[column + "_lower_db"]), step.LowerDb);
            Assert.Equal(Db(row[column + "_upper_db"]), step.UpperDb);
            Assert.Equal(Db(row["max_u_db"]), step.MostExpandedDb);
        }
        Assert.Equal("IEC 61672-1:2013, table 3", table.Source);
    }

    // Exact middles as 61672-1:2013, 5.5.6 has them: 1000 Hz times ten to a tenth of (n - 30), n from 10 (10 Hz) to 43 (20 kHz).
    [Fact]
    public void Nominal_and_exact_frequencies_lead_to_the_same_step()
    {
        var n = 10;
        foreach (var step in ResponseTable.Class1Of2013.Steps)
        {
            var exact = 1000 * Math.Pow(10, 0.1 * (n++ - 30));
            Assert.Equal(exact, step.Band.MiddleHz, exact * 1e-12);
            Assert.Equal(step.Band, ThirdOctave.Of(exact));
            Assert.Equal(step.Band, ThirdOctave.Of(step.Band.NominalHz));
            Assert.Equal(step.Band, ThirdOctave.Of(step.Band.LowHz * 1.0001));
            Assert.Equal(step.Band, ThirdOctave.Of(step.Band.HighHz * 0.9999));
        }
    }

    [Fact]
    public void Limits_by_angle_are_those_that_are_printed_and_between_angles_the_greater_angle_holds()
    {
        var table = AngleTable.Of1995;
        // The first row of the printed table is of all bands from 50 Hz to 2 kHz.
        var rows = ReferenceTable.Rows(Angles)
            .SelectMany(r => (r["nominal_hz"] == "50-2000" ? ThirdOctave.Between(50, 2000) : [At(r["nominal_hz"])]).Select(b => (b, r))).ToList();

        Assert.Equal(24, rows.Count);
        Assert.Equal(rows.Select(r => r.b), table.Bands);
        foreach (var (band, row) in rows)
        {
            foreach (var (before, angle) in new[] { (0, 30), (30, 60), (60, 90), (90, 120), (120, 150) })
            {
                var limit = Db(row[$"at_{angle}_deg_db"]);
                Assert.All([before + 0.1, before + 15, angle], a => Assert.Equal(new(band, -limit, limit, null), table.Of(band, a)));
            }
            Assert.Null(table.Of(band, 0));
            Assert.Null(table.Of(band, 150.1));
            Assert.Null(table.Of(band, 180));
        }
        Assert.Null(table.Of(new(-14), 30)); // 40 Hz
        Assert.Null(table.Of(new(11), 30)); // 12.5 kHz
        Assert.Throws<ArgumentOutOfRangeException>(() => table.Of(new(0), -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => table.Of(new(0), 180.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => table.Of(new(0), double.NaN));
    }

    [Fact]
    public void Differences_of_fields_are_those_that_are_printed()
    {
        var rows = ReferenceTable.Rows(Fields);

        Assert.Equal(rows.Select(r => At(r["nominal_hz"])), FieldDifference.Bands);
        foreach (var row in rows)
        {
            var band = At(row["nominal_hz"]);
            Assert.Equal(Db(row["free_field_0deg_minus_pressure_db"]), FieldDifference.Of("free-field", "pressure", band)!.Value, 9);
            Assert.Equal(-Db(row["free_field_0deg_minus_pressure_db"]), FieldDifference.Of("pressure", "free-field", band)!.Value, 9);
            Assert.Equal(Db(row["diffuse_minus_pressure_db"]), FieldDifference.Of("diffuse", "pressure", band)!.Value, 9);
            Assert.Equal(Db(row["ten_lg_gamma_db"]), FieldDifference.Of("free-field", "diffuse", band)!.Value, 9);
            Assert.Equal(0, FieldDifference.Of("diffuse", "diffuse", band));
        }
        Assert.Null(FieldDifference.Of("free-field", "pressure", new(-2))); // 630 Hz
        Assert.Null(FieldDifference.Of("free-field", "elsewhere", new(0)));
    }

    [Fact]
    public void The_bound_of_fields_lies_above_every_difference_of_the_table_and_ends_where_nothing_is_known()
    {
        foreach (var row in ReferenceTable.Rows(Fields))
            Assert.True(FieldDifference.BoundDb(At(row["nominal_hz"]), false) > Db(row["free_field_0deg_minus_pressure_db"]));
        Assert.Null(FieldDifference.BoundDb(new(14), false)); // 25 kHz
        Assert.NotNull(FieldDifference.BoundDb(new(7), true)); // 5 kHz
        Assert.Null(FieldDifference.BoundDb(new(8), true)); // 6.3 kHz
    }

    // 14 CFR 36, A36.3.5.3: 50 Hz to 5 kHz within 1.0 dB of the check frequency, 6.3 to 10 kHz within 2.0 dB (2021 edition).
    [Fact]
    public void Certification_of_aircraft_has_its_own_limits()
    {
        var table = ResponseTable.Part36;

        Assert.Equal(ThirdOctave.Between(50, 10_000), table.Steps.Select(s => s.Band));
        Assert.All(table.Steps, s => Assert.Equal(s.Band.NominalHz <= 5000 ? (-1, 1) : (-2, 2), (s.LowerDb, s.UpperDb)));
        Assert.All(table.Steps, s => Assert.Null(s.MostExpandedDb));
        Assert.Equal("free-field", table.Field);
    }

    [Theory]
    [InlineData("IEC 61672-1:2002 class 1")]
    [InlineData("IEC 61672-1 class 1")]
    [InlineData("class 1")]
    [InlineData("")]
    [InlineData(null)]
    public void Another_edition_is_another_table(string? key)
    {
        Assert.Null(ResponseTable.Find(key));
        Assert.Null(AngleTable.Find(key));
        Assert.Equal(ResponseTable.Keys.Count, ResponseTable.Keys.Distinct().Count());
        Assert.All(ResponseTable.All, t => Assert.Same(t, ResponseTable.Find(t.Key)));
        Assert.All(AngleTable.All, t => Assert.Same(t, AngleTable.Find(t.Key)));
        Assert.All([.. ResponseTable.Keys, .. AngleTable.Keys], k => Assert.DoesNotContain(',', k)); // words of a list in a profile
    }

    private static ThirdOctave At(string nominalHz) => ThirdOctave.Of(ReferenceTable.Number(nominalHz));

    private static double Db(string cell) => cell == "-inf" ? double.NegativeInfinity : ReferenceTable.Number(cell);
}
