using MicRegister.Register.Readiness;
using MicRegister.Server.Pages.Shell;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Where a device stands, part by part, and which dialog stands open there.</summary>
public sealed class DeviceAddressTests
{
    [Theory]
    [InlineData(DevicePart.Results, "devices/M%2F1")]
    [InlineData(DevicePart.WhatItIs, "devices/M%2F1/what-it-is")]
    [InlineData(DevicePart.WhereItWas, "devices/M%2F1/where-it-was")]
    [InlineData(DevicePart.DependsOn, "devices/M%2F1/depends-on")]
    [InlineData(DevicePart.Journal, "devices/M%2F1/journal")]
    [InlineData(DevicePart.Whole, "devices/M%2F1/whole")]
    public void Each_part_has_an_address_that_leads_back_to_it(DevicePart part, string address)
    {
        Assert.Equal(address, DeviceAddress.Of("M/1", part));
        Assert.Equal(part, DeviceAddress.PartOf(address.Split('/') is [_, _, var word] ? word : null));
    }

    [Fact]
    public void What_is_no_part_is_told_from_the_plain_address()
    {
        Assert.Null(DeviceAddress.PartOf("results-of-old"));
        Assert.Equal((DevicePart.Results, DevicePart.Journal), (DeviceAddress.PartOf(""), DeviceAddress.PartOf("JOURNAL")));
    }

    [Theory]
    [InlineData(DeviceAct.Certificate, "devices/M1?enter=certificate")]
    [InlineData(DeviceAct.Inspection, "devices/M1/where-it-was?enter=inspection")]
    [InlineData(DeviceAct.Work, "devices/M1/where-it-was?enter=work")]
    [InlineData(DeviceAct.State, "devices/M1/where-it-was?enter=state")]
    [InlineData(DeviceAct.Detail, "devices/M1/what-it-is?enter=detail")]
    [InlineData(DeviceAct.Join, "devices/M1/what-it-is?enter=join")]
    [InlineData(DeviceAct.Coupling, "devices/M1?enter=coupling")]
    public void Each_dialog_has_an_address_at_which_it_stands_open(DeviceAct entry, string address)
    {
        Assert.Equal(address, DeviceAddress.Entering("M1", entry));
        Assert.Equal(entry, DeviceAddress.EntryAt(new("https://desk.example/" + address)));
    }

    [Theory]
    [InlineData("devices/M1")]
    [InlineData("devices/M1?enter=")]
    [InlineData("devices/M1?enter=teapot")]
    [InlineData("devices/M1?exit=certificate")]
    [InlineData("devices/M1#certificates")]
    public void Elsewhere_none_stands_open(string address) =>
        Assert.Null(DeviceAddress.EntryAt(new("https://desk.example/" + address)));

    // Addresses that were sent to colleagues before there were parts.
    [Fact]
    public void The_former_address_of_inspections_opens_them() =>
        Assert.Equal(DeviceAct.Inspection, DeviceAddress.EntryAt(new("https://desk.example/devices/M1#inspect")));

    [Theory]
    [InlineData(Clearing.Inspect, "plate-inspection", "devices/M1/where-it-was?enter=inspection")]
    [InlineData(Clearing.Enter, "no-uncertainty", "devices/M1#certificates")]
    [InlineData(Clearing.Enter, "response-limits", "devices/M1#certificates")]
    [InlineData(Clearing.Enter, "response-type", "devices/M1/what-it-is?enter=detail")]
    [InlineData(Clearing.Enter, "calibrator-class", "devices/M1/what-it-is?enter=detail")]
    [InlineData(Clearing.Decide, "step", "devices/M1#certificates")]
    [InlineData(Clearing.Decide, "one-day-twice", "devices/M1#certificates")]
    [InlineData(Clearing.Decide, "contradiction", "devices/M1")]
    public void A_finding_leads_to_what_clears_it(Clearing clearing, string rule, string address)
    {
        Assert.Contains(ReadinessRules.All, r => r.Key == rule);
        Assert.Equal(address, DeviceAddress.Clearing("M1", clearing, rule));
    }
}
