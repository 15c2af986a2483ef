using MicRegister.Register.Devices;
using static MicRegister.Documents.Tests.Import.SmallList;

namespace MicRegister.Documents.Tests.Import;

/// <summary>What stands beside the devices of a list and is none, and what is said of all of them and is not so. All lists are invented.</summary>
public sealed class NoDeviceTests
{
    [Fact]
    public void Channels_that_count_the_rows_are_no_devices()
    {
        var register = Good("Ch.,Model,Serial no.,Sensitivity [V/Pa],Calibration date\n" + string.Concat(Enumerable.Range(1, 8)
            .Select(n => $"{n},M1,{70 + (3 * n)},0.0{490 + n},2025-03-0{n}\n")));

        Assert.Equal(8, register.DeviceIds.Count());
        Assert.All(register.DeviceIds, id => Assert.Equal("microphone", register.Device(id)!.Kind));
    }

    [Fact]
    public void Days_under_a_word_for_devices_are_no_devices()
    {
        var (_, register) = Read("Model,Serial no.,Microphone,Date,Result\n" + string.Concat(Enumerable.Range(1, 8)
            .Select(n => $"M1,{70 + (3 * n)},2025-02-{10 + (2 * n)},2025-03-0{n},5{n}.1 mV/Pa\n")));

        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Serial?.StartsWith("2025", StringComparison.Ordinal) == true);
    }

    [Fact]
    public void A_title_that_the_results_contradict_says_no_kind()
    {
        var register = Good("Microphone channel plan,,,\n\nModel,Serial no.,Sensitivity [V/Pa],Calibration date\n"
            + "M1,71,0.0491,2025-03-01\nM1,72,0.0502,2025-03-02\n");

        Assert.All(register.DeviceIds, id => Assert.Equal("microphone", register.Device(id)!.Kind));
    }

    [Fact]
    public void A_unit_of_something_else_is_no_place()
    {
        var (_, register) = Read("Model,Serial no.,Sensitivity [V/Pa],Input range [V],Calibration date\n"
            + "M1,71,0.0491,10,2025-03-01\nM1,72,0.0502,1,2025-03-02\nM1,75,0.0502,10,2025-03-02\n");

        Assert.Equal(3, register.DeviceIds.Count());
        Assert.All(register.DeviceIds, id => Assert.Null(register.Device(id)!.Place));
        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Details.ContainsKey(DeviceField.SizeMm.Key));
    }

    [Fact]
    public void What_a_thing_is_may_stand_behind_its_name()
    {
        var text = "Product,Serial no.,Date,Result\n" + string.Concat(Enumerable.Range(1, 7)
            .Select(n => $"\"Own workshop MK-{n % 2}0, Microphone\",{70 + (3 * n)},2025-03-0{n},50.{n} mV/Pa\n"));

        var device = Device(Good(text), "73");

        Assert.Equal(("microphone", "Own workshop", "MK-10"), (device.Kind, device.Maker, device.Model));
    }

    [Fact]
    public void A_model_with_something_behind_a_comma_is_asked()
    {
        var (report, register) = Read("Kind,Model,Serial no.,Date,Result\n" + string.Concat(Enumerable.Range(1, 7)
            .Select(n => $"mic,\"MK-{n % 2}0, grey\",{70 + (3 * n)},2025-03-0{n},50.{n} mV/Pa\n")));

        Assert.Equal(["column model"], Parts(report));
        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Model?.Contains(',', StringComparison.Ordinal) == true);
    }
}
