using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Bench;
using MicRegister.Server.Work;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Pages;

/// <summary>What a key costs at the bench, counted: one line, and the devices that carry its serial number.</summary>
public sealed class BenchSheetTests : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();
    private LiveRegister _live = null!;
    private Desk _desk = null!;

    public async ValueTask InitializeAsync()
    {
        _live = new(JournalStore.Open(new DiskFiles(_folder.Path), TimeProvider.System));
        _desk = new(_live, TimeProvider.System, new DateOnly(2026, 8, 3));
        await _live.Submit([.. Enumerable.Range(0, 40).Select(n =>
            Registered("D" + n, (1000 + n).ToString(System.Globalization.CultureInfo.InvariantCulture)))], "test");
    }

    public async ValueTask DisposeAsync()
    {
        await _live.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public void A_key_works_out_its_own_line_alone()
    {
        var sheet = Sheet(20);
        sheet.Work(_desk, _desk.Now);
        var (before, others) = (sheet.Worked, sheet.Lines.Skip(1).Select(l => l.Issued).ToList());
        Assert.Equal(20, sheet.Lines.Count(l => l.Issued is not null));

        sheet.Lines[0].Value = "-26.5";
        sheet.Work(_desk, _desk.Now, sheet.Lines[0]);

        Assert.Equal(1, sheet.Worked - before);
        Assert.Equal(-26.5, sheet.Lines[0].LevelDb!.Value, 1e-9);
        Assert.All(sheet.Lines.Skip(1).Zip(others), l => Assert.Same(l.Second, l.First.Issued)); // the others were not touched
        Assert.True(sheet.Lines[^1].IsEmpty);
        // A key in the last line opens the next one.
        sheet.Lines[^1].Serial = "1030";
        sheet.Work(_desk, _desk.Now, sheet.Lines[^1]);
        Assert.True(sheet.Lines[^1].IsEmpty);
        Assert.Equal("D30", sheet.Lines[^2].Device!.Id);
    }

    [Fact]
    public async Task The_index_of_serial_numbers_is_kept_while_no_fact_can_change_one()
    {
        var index = SerialIndex.Of(_desk.Now);
        await _live.Submit([Of(new DeviceMoved("bench"), "D1"), Of(new DeviceNoted("seen"), "D2")], "test");
        Assert.Same(index, SerialIndex.Of(_desk.Now));

        await _live.Submit([Registered("E1", " 77  a ")], "test");

        Assert.NotSame(index, SerialIndex.Of(_desk.Now));
        Assert.Equal("E1", Assert.Single(SerialIndex.Find(_desk.Now, "77 A")).Id);
        await _live.Submit([Of(new DeviceDescribed(new(StringComparer.Ordinal) { ["serial"] = FieldValue.Of("88"),
            [DeviceField.InventoryCode.Key] = FieldValue.Of("INV 5") }, []), "E1")], "test");
        Assert.Empty(SerialIndex.Find(_desk.Now, "77 A"));
        Assert.Equal("E1", Assert.Single(SerialIndex.Find(_desk.Now, "88")).Id);
        Assert.Equal("E1", Assert.Single(SerialIndex.Find(_desk.Now, "inv 5")).Id);
    }

    [Fact]
    public async Task It_finds_what_a_look_at_every_device_finds()
    {
        await _live.Submit(
        [
            Registered("X1", "1001"), // a second one of that serial number
            Registered("1002", "other"), // an id that is another's serial number
            Of(new DevicesJoined("D5", "D6", "one"), "D5", "D6"), Of(new DeviceNoted("nobody registered it"), "STRAY"),
        ], "test");
        var register = _desk.Now;
        foreach (var text in new[] { "1000", "1001", "1002", " 1003", "1005", "1006", "D5", "D6", "d7", "STRAY", "none", "", " ",
            new string('9', 5000) })
        {
            var serial = DeviceIdentity.Normal(text);
            var looked = string.IsNullOrWhiteSpace(text) ? []
                : register.DeviceIds.Select(id => register.Device(id)!).Where(d => d.Id == text || DeviceIdentity.Normal(d.Serial) == serial
                    || DeviceIdentity.Normal(d.Text(DeviceField.InventoryCode)) == serial).Select(d => d.Id);
            Assert.Equal(
                looked.Order(StringComparer.Ordinal), SerialIndex.Find(register, text).Select(d => d.Id).Order(StringComparer.Ordinal));
        }
    }

    private BenchSheet Sheet(int lines)
    {
        var sheet = new BenchSheet { Day = _desk.Today };
        sheet.Lines.Clear();
        for (var n = 0; n < lines; n++) sheet.Lines.Add(new()
        {
            Serial = (1000 + n).ToString(System.Globalization.CultureInfo.InvariantCulture),
            Value = "-26.0",
            Unit = "dB re 1 V/Pa",
            Expanded = "0.1"
        });
        return sheet;
    }

    private static Fact Registered(string id, string serial) => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0),
        new DeviceRegistered("microphone", null, null, serial, []), [Subject.Device(id)]);

    private static Fact Of(FactBody body, params string[] devices) => FactText.WriteDerived(
        new(Occurred.On(new(2026, 8, 1)), "P1", "desk", 1), body, [.. devices.Select(Subject.Device)]);
}
